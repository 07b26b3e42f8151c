# A window of WebKitGTK that its driver can steer and that keeps what a page stores: the test browser that comes with
# the library forgets everything at its end when it is steered, and a phone does not.
#   /usr/bin/python3 webkit.py FOLDER     (started by WebKitWebDriver)
import os
import sys

import gi

gi.require_version("Gtk", "3.0")
gi.require_version("WebKit2", "4.1")
from gi.repository import Gtk, WebKit2

folder = sys.argv[1]
manager = WebKit2.WebsiteDataManager(
    base_data_directory=os.path.join(folder, "data"), base_cache_directory=os.path.join(folder, "cache")
)
context = WebKit2.WebContext.new_with_website_data_manager(manager)
context.set_automation_allowed(True)


def new_view(_session):
    window = Gtk.Window()
    # Of common phones' size, in CSS pixels.
    window.set_default_size(412, 915)
    view = WebKit2.WebView(web_context=context, is_controlled_by_automation=True)
    window.add(view)
    window.show_all()
    return view


def automation_started(_context, session):
    about = WebKit2.ApplicationInfo.new()
    about.set_name("WebKitGTK")
    about.set_version(WebKit2.get_major_version(), WebKit2.get_minor_version(), WebKit2.get_micro_version())
    session.set_application_info(about)
    session.connect("create-web-view", new_view)


context.connect("automation-started", automation_started)
Gtk.main()

//! From the tree to the page, and from what stands on the page to a new tree.

use std::cell::RefCell;
use std::rc::Rc;

use leptos::prelude::{RenderEffect, mount_to};
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::Closure;
use web_sys::{Document, Event, HtmlElement};

use super::node::{Ear, Element, Fixed, Node};
use super::value::Value;

const DRAWING: &str = "http://www.w3.org/2000/svg";

/// A node that stands on the page. Each holds at least one node of the page, so that its place is known.
enum Drawn {
    /// A comment where nothing is seen.
    Nothing(web_sys::Node),
    Text(web_sys::Node, String),
    Element(Box<DrawnElement>),
    /// All of them, and a comment behind the last.
    Many(Vec<Drawn>, web_sys::Node),
    Live(Live),
}

struct DrawnElement {
    element: web_sys::Element,
    tag: &'static str,
    fixed: Fixed,
    set: Vec<(&'static str, Option<RenderEffect<()>>)>,
    ears: Vec<Hearing>,
    children: Vec<Drawn>,
}

/// What hears an event, changed without telling the browser.
struct Hearing {
    event: &'static str,
    ear: Rc<RefCell<Rc<Ear>>>,
    heard: Closure<dyn FnMut(Event)>,
}

/// What a closure gave, and the effect that asks it again.
struct Live {
    content: Rc<RefCell<Option<Drawn>>>,
    /// Held: dropping it ends the asking.
    asking: RenderEffect<()>,
}

/// Draws `app` at the end of the page, for as long as the page lives.
pub fn mount(app: fn() -> Node) {
    if let Some(body) = page().body() {
        mount_in(&body, app);
    }
}

/// Draws `app` at the end of `place`, for as long as the page lives.
pub fn mount_in(place: &HtmlElement, app: impl FnOnce() -> Node + 'static) {
    let parent = place.clone();
    // Leptos starts its effects and makes the owner of all signals; nothing is left for it to draw.
    mount_to(place.clone(), move || std::mem::forget(draw(app(), &parent))).forget();
}

/// The page.
fn page() -> Document {
    leptos::prelude::document()
}

/// Draws a node as the last child of `parent`.
fn draw(node: Node, parent: &web_sys::Node) -> Drawn {
    match node {
        Node::Nothing => Drawn::Nothing(mark(parent)),
        Node::Text(value) => {
            let text = value.with(|text| text.unwrap_or_default().to_owned());
            let node = page().create_text_node(&text);
            add(parent, &node);
            Drawn::Text(node.into(), text)
        }
        Node::Element(of) => {
            let drawn = draw_element(*of);
            add(parent, &drawn.element);
            Drawn::Element(Box::new(drawn))
        }
        Node::Many(all) => {
            let drawn = draw_all(all, parent);
            Drawn::Many(drawn, mark(parent))
        }
        Node::Live(now) => Drawn::Live(live(now, None, Some(parent))),
    }
}

fn draw_all(all: Vec<Node>, parent: &web_sys::Node) -> Vec<Drawn> {
    all.into_iter().map(|one| draw(one, parent)).collect()
}

fn add(parent: &web_sys::Node, child: &web_sys::Node) {
    // Refused only where a node would hold itself.
    let _ = parent.append_child(child);
}

fn mark(parent: &web_sys::Node) -> web_sys::Node {
    let mark = page().create_comment("");
    add(parent, &mark);
    mark.into()
}

fn draw_element(of: Element) -> DrawnElement {
    let Element { tag, drawn, fixed, set, ears, children } = of;
    let page = page();
    let made = if drawn { page.create_element_ns(Some(DRAWING), tag) } else { page.create_element(tag) };
    // Refused only for a name that is none; no screen has one.
    let element: web_sys::Element = made.unwrap_or_else(JsCast::unchecked_into);
    for (name, value) in fixed {
        let _ = element.set_attribute(name, value);
    }
    // Before the values: a list has to hold its options when one is picked.
    let children = draw_all(children, &element);
    let set = set.into_iter().map(|(name, value)| (name, keep_set(&element, name, value))).collect();
    let ears = ears.into_iter().map(|(event, ear)| hear(&element, event, ear)).collect();
    DrawnElement { element, tag, fixed, set, ears, children }
}

/// Sets an attribute, now and whenever its value changes.
fn keep_set(element: &web_sys::Element, name: &'static str, value: Value) -> Option<RenderEffect<()>> {
    if matches!(value, Value::Live(_)) {
        let element = element.clone();
        return Some(RenderEffect::new(move |_| value.with(|text| set(&element, name, text))));
    }
    value.with(|text| set(element, name, text));
    None
}

fn set(element: &web_sys::Element, name: &str, value: Option<&str>) {
    let _ = match (name, value) {
        ("prop:value", _) => {
            let _ = js_sys::Reflect::set(element, &"value".into(), &value.unwrap_or_default().into());
            Ok(())
        }
        ("inner_html", _) => {
            element.set_inner_html(value.unwrap_or_default());
            Ok(())
        }
        (_, Some(value)) => element.set_attribute(name, value),
        (_, None) => element.remove_attribute(name),
    };
}

fn hear(element: &web_sys::Element, event: &'static str, ear: Ear) -> Hearing {
    let ear = Rc::new(RefCell::new(Rc::new(ear)));
    let told = Rc::clone(&ear);
    let heard: Closure<dyn FnMut(Event)> = Closure::new(move |event: Event| {
        // Not held while it acts: what it does may draw this element anew.
        let ear = Rc::clone(&told.borrow());
        match &*ear {
            Ear::Plain(act) => act(event),
            Ear::Mouse(act) => act(event.unchecked_into()),
            Ear::Key(act) => act(event.unchecked_into()),
        }
    });
    let _ = element.add_event_listener_with_callback(event, heard.as_ref().unchecked_ref());
    Hearing { event, ear, heard }
}

/// Asks the closure now and whenever what it reads changes. It is drawn into `parent`, or over `before`.
fn live(now: Box<dyn Fn() -> Node>, before: Option<Drawn>, parent: Option<&web_sys::Node>) -> Live {
    let content = Rc::new(RefCell::new(before));
    let asking = RenderEffect::new({
        let content = Rc::clone(&content);
        // Only for the first time: afterwards its place is where it stands.
        let mut parent = parent.cloned();
        move |_| {
            let new = now();
            let old = content.borrow_mut().take();
            let drawn = match (old, parent.take()) {
                (Some(old), _) => redraw(old, new),
                (None, Some(parent)) => draw(new, &parent),
                (None, None) => return,
            };
            *content.borrow_mut() = Some(drawn);
        }
    });
    Live { content, asking }
}

/// Changes what stands on the page into `new`.
fn redraw(old: Drawn, new: Node) -> Drawn {
    match (old, new) {
        (Drawn::Nothing(mark), Node::Nothing) => Drawn::Nothing(mark),
        (Drawn::Text(node, before), Node::Text(value)) => {
            let text = value.with(|text| text.unwrap_or_default().to_owned());
            // The same words are not said twice by a screen reader.
            if text != before {
                node.set_node_value(Some(&text));
            }
            Drawn::Text(node, text)
        }
        (Drawn::Element(mut old), Node::Element(new)) if old.tag == new.tag => {
            redraw_element(&mut old, *new);
            Drawn::Element(old)
        }
        (Drawn::Many(old, mark), Node::Many(new)) => {
            let drawn = redraw_all(old, new, |fragment| before(&mark, fragment));
            Drawn::Many(drawn, mark)
        }
        (Drawn::Live(Live { content, asking }), Node::Live(now)) => {
            drop(asking);
            let before = content.borrow_mut().take();
            Drawn::Live(live(now, before, None))
        }
        (old, new) => replace(old, new),
    }
}

/// Pair by pair; what is over goes, what is missing comes behind.
fn redraw_all(old: Vec<Drawn>, new: Vec<Node>, put_last: impl FnOnce(&web_sys::Node)) -> Vec<Drawn> {
    let mut new = new.into_iter();
    let mut all = Vec::with_capacity(old.len().max(new.len()));
    for old in old {
        match new.next() {
            Some(new) => all.push(redraw(old, new)),
            None => remove(&old),
        }
    }
    if new.len() > 0 {
        let fragment = page().create_document_fragment();
        all.extend(new.map(|one| draw(one, &fragment)));
        put_last(&fragment);
    }
    all
}

fn redraw_element(old: &mut DrawnElement, new: Element) {
    let element = &old.element;
    // The old effects first: two of them would write by turns.
    let mut gone: Vec<&str> = old.set.drain(..).map(|(name, _)| name).collect();
    gone.extend(old.fixed.iter().map(|(name, _)| *name));
    gone.retain(|name| {
        !name.contains(':') && !new.fixed.iter().any(|(n, _)| n == name) && !new.set.iter().any(|(n, _)| n == name)
    });
    for name in gone {
        set(element, name, None);
    }
    if !std::ptr::eq(old.fixed, new.fixed) {
        for (name, value) in new.fixed {
            let _ = element.set_attribute(name, value);
        }
        old.fixed = new.fixed;
    }
    let children = std::mem::take(&mut old.children);
    old.children = redraw_all(children, new.children, |fragment| add(element, fragment));
    old.set = new.set.into_iter().map(|(name, value)| (name, keep_set(element, name, value))).collect();
    let mut before = std::mem::take(&mut old.ears);
    for (event, ear) in new.ears {
        let known = before.iter().position(|hearing| hearing.event == event).map(|at| before.swap_remove(at));
        let hearing = match known {
            Some(hearing) => {
                *hearing.ear.borrow_mut() = Rc::new(ear);
                hearing
            }
            None => hear(element, event, ear),
        };
        old.ears.push(hearing);
    }
    for Hearing { event, heard, .. } in before {
        let _ = element.remove_event_listener_with_callback(event, heard.as_ref().unchecked_ref());
    }
}

/// Puts a new node where an old one of another kind stands.
fn replace(old: Drawn, new: Node) -> Drawn {
    let fragment = page().create_document_fragment();
    let drawn = draw(new, &fragment);
    first(&old, &|node| before(node, &fragment));
    remove(&old);
    drawn
}

fn before(place: &web_sys::Node, new: &web_sys::Node) {
    if let Some(parent) = place.parent_node() {
        let _ = parent.insert_before(new, Some(place));
    }
}

/// Does something with the first node of the page that belongs to it.
fn first(of: &Drawn, act: &dyn Fn(&web_sys::Node)) {
    match of {
        Drawn::Nothing(node) | Drawn::Text(node, _) => act(node),
        Drawn::Element(of) => act(&of.element),
        Drawn::Many(all, mark) => match all.first() {
            Some(one) => first(one, act),
            None => act(mark),
        },
        Drawn::Live(live) => {
            if let Some(one) = &*live.content.borrow() {
                first(one, act);
            }
        }
    }
}

/// Takes all its nodes off the page.
fn remove(old: &Drawn) {
    match old {
        Drawn::Nothing(node) | Drawn::Text(node, _) => take_off(node),
        Drawn::Element(of) => take_off(&of.element),
        Drawn::Many(all, mark) => {
            all.iter().for_each(remove);
            take_off(mark);
        }
        Drawn::Live(live) => live.content.borrow().iter().for_each(remove),
    }
}

fn take_off(node: &web_sys::Node) {
    if let Some(parent) = node.parent_node() {
        let _ = parent.remove_child(node);
    }
}

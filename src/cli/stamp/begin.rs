//! When a page's program begins.

/// `page` with its module begun as soon as it is there. Without `async` a module waits until the whole page was read
/// and every style sheet is in; a program that is compiled first for a good while need not. It waits itself for what
/// it draws on (`web::start`).
pub(super) fn at_once(page: &str) -> String {
    page.replace("<script type=\"module\">", "<script type=\"module\" async>")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_module_waits_for_no_page_and_other_scripts_stay_as_they_are() {
        let page = "<script src=\"a.js\"></script><script type=\"module\">\none\n</script>";
        assert_eq!(at_once(page), "<script src=\"a.js\"></script><script type=\"module\" async>\none\n</script>");
    }
}

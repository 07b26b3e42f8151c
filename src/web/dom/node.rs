//! The tree.

use web_sys::{Event, KeyboardEvent, MouseEvent};

use super::value::{IntoValue, Value};

/// A piece of a screen.
pub enum Node {
    /// Nothing.
    Nothing,
    /// A text.
    Text(Value),
    /// An element.
    Element(Box<Element>),
    /// Several in a row.
    Many(Vec<Node>),
    /// Drawn anew whenever what it reads changes.
    Live(Box<dyn Fn() -> Node>),
}

impl Node {
    /// Itself: every piece is of one type already.
    #[must_use]
    pub fn into_any(self) -> Self {
        self
    }
}

/// Attributes that are known when the program is built.
pub(super) type Fixed = &'static [(&'static str, &'static str)];

/// What hears an event.
pub(super) enum Ear {
    /// Any event.
    Plain(Box<dyn Fn(Event)>),
    /// A click or tap.
    Mouse(Box<dyn Fn(MouseEvent)>),
    /// A key.
    Key(Box<dyn Fn(KeyboardEvent)>),
}

/// An element.
pub struct Element {
    pub(super) tag: &'static str,
    /// True for what lies in a drawing (SVG).
    pub(super) drawn: bool,
    pub(super) fixed: Fixed,
    pub(super) set: Vec<(&'static str, Value)>,
    pub(super) ears: Vec<(&'static str, Ear)>,
    pub(super) children: Vec<Node>,
}

#[allow(clippy::unnecessary_box_returns)] // one address is handed on, not the whole element
fn new(tag: &'static str, fixed: Fixed, drawn: bool) -> Box<Element> {
    Box::new(Element { tag, drawn, fixed, set: Vec::new(), ears: Vec::new(), children: Vec::new() })
}

/// An HTML element.
#[must_use]
pub fn element(tag: &'static str, fixed: &'static [(&'static str, &'static str)]) -> Box<Element> {
    new(tag, fixed, false)
}

/// An element of a drawing.
#[must_use]
pub fn drawn(tag: &'static str, fixed: &'static [(&'static str, &'static str)]) -> Box<Element> {
    new(tag, fixed, true)
}

/// Any value as a node.
pub fn node(of: impl IntoNode) -> Node {
    of.into_node()
}

/// Several in a row.
#[must_use]
pub fn many(all: impl Into<Vec<Node>>) -> Node {
    Node::Many(all.into())
}

impl Element {
    /// Sets an attribute, or with `prop:value` and `inner_html` what a field or an element holds.
    pub fn put(&mut self, name: &'static str, value: impl IntoValue) {
        self.put_value(name, value.into_value());
    }

    #[inline(never)]
    fn put_value(&mut self, name: &'static str, value: Value) {
        self.set.push((name, value));
    }

    /// Adds a child.
    pub fn child(&mut self, child: impl IntoNode) {
        self.node(child.into_node());
    }

    /// Adds a child that is a node already.
    #[inline(never)]
    pub fn node(&mut self, child: Node) {
        self.children.push(child);
    }

    /// Hears taps.
    pub fn on_click(&mut self, act: impl Fn(MouseEvent) + 'static) {
        self.hear("click", Ear::Mouse(Box::new(act)));
    }

    /// Hears keys.
    pub fn on_keydown(&mut self, act: impl Fn(KeyboardEvent) + 'static) {
        self.hear("keydown", Ear::Key(Box::new(act)));
    }

    /// Hears what is typed, stroke by stroke.
    pub fn on_input(&mut self, act: impl Fn(Event) + 'static) {
        self.hear("input", Ear::Plain(Box::new(act)));
    }

    /// Hears a change, once it is done.
    pub fn on_change(&mut self, act: impl Fn(Event) + 'static) {
        self.hear("change", Ear::Plain(Box::new(act)));
    }

    #[inline(never)]
    fn hear(&mut self, event: &'static str, ear: Ear) {
        self.ears.push((event, ear));
    }

    /// The element as a node.
    #[must_use]
    pub fn done(self: Box<Self>) -> Node {
        Node::Element(self)
    }
}

/// What can stand in an element.
pub trait IntoNode {
    /// As a node.
    fn into_node(self) -> Node;
}

impl IntoNode for Node {
    fn into_node(self) -> Node {
        self
    }
}

impl IntoNode for () {
    fn into_node(self) -> Node {
        Node::Nothing
    }
}

impl IntoNode for &'static str {
    fn into_node(self) -> Node {
        Node::Text(Value::Fixed(self))
    }
}

impl IntoNode for String {
    fn into_node(self) -> Node {
        Node::Text(Value::Own(self))
    }
}

impl<T: IntoNode> IntoNode for Option<T> {
    fn into_node(self) -> Node {
        self.map_or(Node::Nothing, T::into_node)
    }
}

impl<T: IntoNode> IntoNode for Vec<T> {
    fn into_node(self) -> Node {
        Node::Many(self.into_iter().map(T::into_node).collect())
    }
}

impl<T: IntoNode, const N: usize> IntoNode for [T; N] {
    fn into_node(self) -> Node {
        Node::Many(self.into_iter().map(T::into_node).collect())
    }
}

impl<T: IntoNode, F: Fn() -> T + 'static> IntoNode for F {
    fn into_node(self) -> Node {
        Node::Live(Box::new(move || self().into_node()))
    }
}

macro_rules! printed {
    ($($number:ty)+) => {
        $(impl IntoNode for $number {
            fn into_node(self) -> Node {
                self.to_string().into_node()
            }
        })+
    };
}
printed!(u8 u16 u32 u64 usize i32 i64);

/// `into_any` for what is no node yet.
pub trait IntoAny {
    /// As a node.
    fn into_any(self) -> Node;
}

impl<T: IntoNode> IntoAny for T {
    fn into_any(self) -> Node {
        self.into_node()
    }
}

/// All that an iterator gives, in a row.
pub trait CollectView {
    /// In a row.
    fn collect_view(self) -> Node;
}

impl<I: IntoIterator> CollectView for I
where
    I::Item: IntoNode,
{
    fn collect_view(self) -> Node {
        Node::Many(self.into_iter().map(IntoNode::into_node).collect())
    }
}

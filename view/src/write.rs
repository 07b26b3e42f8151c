//! From elements to calls.

use std::str::FromStr as _;

use proc_macro::{Delimiter, Group, Ident, Literal, Punct, Spacing, Span, TokenStream, TokenTree};

use crate::parse::{Attribute, Element, Fault, Node};

/// Tags that belong to drawings.
const OF_A_DRAWING: [&str; 7] = ["svg", "path", "rect", "circle", "line", "text", "g"];

/// One node as it is; several in a row.
pub(crate) fn nodes(mut all: Vec<Node>) -> TokenStream {
    if all.len() == 1
        && let Some(one) = all.pop()
    {
        return node(one);
    }
    let list: TokenStream = all.into_iter().flat_map(|one| [group(Delimiter::None, node(one)), punct(',')]).collect();
    let list = group(Delimiter::Bracket, list);
    call("many", list.into())
}

/// The node as a `Node`.
fn node(one: Node) -> TokenStream {
    match one {
        Node::Element(of) => element(of),
        Node::Value(value) => call("node", value),
    }
}

/// `{ let mut e = element("div", &[("class", "x")]); e.put("id", id); e.child(text); e.done() }`
fn element(of: Element) -> TokenStream {
    let tag = of.tag.to_string();
    let make = if OF_A_DRAWING.contains(&tag.as_str()) { "drawn" } else { "element" };
    let mut fixed = TokenStream::new();
    let mut acts = TokenStream::new();
    for attribute in &of.attributes {
        let name = Literal::string(&attribute.name);
        if attribute.name.starts_with("on:") {
            acts.extend(handler(attribute));
        } else if let Some(text) = plain_text(attribute) {
            let pair: TokenStream = [TokenTree::from(name), punct(','), text.into()].into_iter().collect();
            fixed.extend([group(Delimiter::Parenthesis, pair), punct(',')]);
        } else {
            let value = attribute.value.clone().unwrap_or_default();
            let args: TokenStream =
                [TokenTree::from(name), punct(','), group(Delimiter::None, value)].into_iter().collect();
            acts.extend(method("put", args));
        }
    }
    for child in of.children {
        acts.extend(match child {
            Node::Element(of) => method("node", element(of)),
            Node::Value(value) => method("child", value),
        });
    }
    let args: TokenStream =
        [TokenTree::from(Literal::string(&tag)), punct(','), punct('&'), group(Delimiter::Bracket, fixed)]
            .into_iter()
            .collect();
    let mut body = TokenStream::new();
    body.extend([word("let")]);
    if !acts.is_empty() {
        body.extend([word("mut")]);
    }
    body.extend([word("e"), punct('=')]);
    body.extend(call(make, args));
    body.extend([punct(';')]);
    body.extend(acts);
    body.extend([word("e"), punct('.'), word("done"), group(Delimiter::Parenthesis, TokenStream::new())]);
    group(Delimiter::Brace, body).into()
}

/// A value that is known when the program is built; a bare attribute is an empty text.
fn plain_text(attribute: &Attribute) -> Option<Literal> {
    if attribute.name.contains(':') || attribute.name == "inner_html" {
        return None;
    }
    if attribute.value.is_none() { Some(Literal::string("")) } else { attribute.fixed() }
}

/// `e.on_click(handler);`
fn handler(attribute: &Attribute) -> TokenStream {
    let event = attribute.name.trim_start_matches("on:");
    if !["click", "input", "change", "keydown"].contains(&event) {
        return Fault::new(attribute.at, format!("`on:{event}` is not known: add it to src/web/dom")).into_tokens();
    }
    method(&format!("on_{event}"), attribute.value.clone().unwrap_or_default())
}

fn method(name: &str, args: TokenStream) -> TokenStream {
    [word("e"), punct('.'), word(name), group(Delimiter::Parenthesis, args), punct(';')].into_iter().collect()
}

/// `crate::web::dom::name(args)`
fn call(name: &str, args: TokenStream) -> TokenStream {
    // Always reads: it is a fixed path.
    let mut path = TokenStream::from_str(&format!("crate::web::dom::{name}")).unwrap_or_default();
    path.extend([group(Delimiter::Parenthesis, args)]);
    path
}

fn word(name: &str) -> TokenTree {
    Ident::new(name, Span::mixed_site()).into()
}

fn punct(sign: char) -> TokenTree {
    Punct::new(sign, Spacing::Alone).into()
}

fn group(delimiter: Delimiter, stream: TokenStream) -> TokenTree {
    Group::new(delimiter, stream).into()
}

//! `view!`: HTML in Rust, written as for Leptos, turned into calls of `crate::web::dom`.
//!
//! Leptos's own macro makes a type for every element, attribute and closure; on the phone that was a third
//! of the program. This one knows elements (no components) and makes one type for all. The grammar:
//! `<tag name="fixed" name=expression on:event=handler prop:value=expression bare>` children `</tag>`,
//! where a child is an element, a text or `{expression}`.

mod parse;
mod write;

use proc_macro::TokenStream;

/// HTML in Rust. The value is a `crate::web::dom::Node`.
#[proc_macro]
pub fn view(input: TokenStream) -> TokenStream {
    match parse::nodes(input) {
        Ok(nodes) => write::nodes(nodes),
        Err(fault) => fault.into_tokens(),
    }
}

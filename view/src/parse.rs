//! From tokens to elements.

use proc_macro::{Delimiter, Group, Ident, Literal, Punct, Spacing, Span, TokenStream, TokenTree};

/// Elements that hold nothing and need no end.
const VOID: [&str; 4] = ["br", "hr", "img", "input"];

/// What stands at a place.
pub(crate) enum Node {
    Element(Element),
    /// A text or an expression.
    Value(TokenStream),
}

pub(crate) struct Element {
    pub(crate) tag: Ident,
    pub(crate) attributes: Vec<Attribute>,
    pub(crate) children: Vec<Node>,
}

pub(crate) struct Attribute {
    /// As it stands: `data-ask`, `on:click`, `prop:value`.
    pub(crate) name: String,
    pub(crate) at: Span,
    /// Absent for a bare one.
    pub(crate) value: Option<TokenStream>,
}

impl Attribute {
    /// The text, where the value is one.
    pub(crate) fn fixed(&self) -> Option<Literal> {
        let mut tokens = self.value.clone()?.into_iter();
        match (tokens.next(), tokens.next()) {
            (Some(TokenTree::Literal(text)), None) if text.to_string().starts_with('"') => Some(text),
            _ => None,
        }
    }
}

/// What is wrong, and where.
pub(crate) struct Fault {
    at: Span,
    what: String,
}

impl Fault {
    pub(crate) fn new(at: Span, what: impl Into<String>) -> Self {
        Self { at, what: what.into() }
    }

    /// As an error of the compiler at that place.
    pub(crate) fn into_tokens(self) -> TokenStream {
        let put = |mut token: TokenTree| {
            token.set_span(self.at);
            token
        };
        let text = TokenTree::Literal(Literal::string(&self.what));
        let all: [TokenTree; 4] = [
            Ident::new("compile_error", self.at).into(),
            Punct::new('!', Spacing::Alone).into(),
            Group::new(Delimiter::Parenthesis, text.into()).into(),
            Punct::new(';', Spacing::Alone).into(),
        ];
        let body: TokenStream = all.into_iter().map(put).collect();
        TokenTree::Group(Group::new(Delimiter::Brace, body)).into()
    }
}

struct Reader {
    tokens: Vec<TokenTree>,
    at: usize,
}

/// All nodes of a `view!`.
pub(crate) fn nodes(input: TokenStream) -> Result<Vec<Node>, Fault> {
    let mut reader = Reader { tokens: input.into_iter().collect(), at: 0 };
    let nodes = reader.nodes()?;
    match reader.tokens.get(reader.at) {
        Some(token) => Err(Fault::new(token.span(), "an end of an element that was not begun")),
        None => Ok(nodes),
    }
}

impl Reader {
    fn is(&self, ahead: usize, sign: char) -> bool {
        matches!(self.tokens.get(self.at + ahead), Some(TokenTree::Punct(p)) if p.as_char() == sign)
    }

    fn is_ident(&self, ahead: usize) -> bool {
        matches!(self.tokens.get(self.at + ahead), Some(TokenTree::Ident(_)))
    }

    fn here(&self) -> Span {
        self.tokens.get(self.at).or(self.tokens.last()).map_or_else(Span::call_site, TokenTree::span)
    }

    fn expect(&mut self, sign: char) -> Result<(), Fault> {
        if !self.is(0, sign) {
            return Err(Fault::new(self.here(), format!("`{sign}` is missing")));
        }
        self.at += 1;
        Ok(())
    }

    fn ident(&mut self) -> Result<Ident, Fault> {
        let Some(TokenTree::Ident(name)) = self.tokens.get(self.at).cloned() else {
            return Err(Fault::new(self.here(), "a name is missing"));
        };
        self.at += 1;
        Ok(name)
    }

    /// Up to the end, or to the end of the element around.
    fn nodes(&mut self) -> Result<Vec<Node>, Fault> {
        let mut all = Vec::new();
        while let Some(token) = self.tokens.get(self.at).cloned() {
            match token {
                TokenTree::Punct(_) if self.is(0, '<') && self.is(1, '/') => break,
                TokenTree::Punct(_) if self.is(0, '<') => all.push(Node::Element(self.element()?)),
                TokenTree::Group(group) if group.delimiter() == Delimiter::Brace => {
                    self.at += 1;
                    all.push(Node::Value(group.stream()));
                }
                TokenTree::Literal(_) => {
                    self.at += 1;
                    all.push(Node::Value(token.into()));
                }
                _ => return Err(Fault::new(token.span(), "expected `<element>`, \"text\" or {expression}")),
            }
        }
        Ok(all)
    }

    fn element(&mut self) -> Result<Element, Fault> {
        self.expect('<')?;
        let tag = self.ident()?;
        let mut attributes = Vec::new();
        while self.is_ident(0) {
            attributes.push(self.attribute()?);
        }
        if self.is(0, '/') {
            self.at += 1;
            self.expect('>')?;
            return Ok(Element { tag, attributes, children: Vec::new() });
        }
        self.expect('>')?;
        if VOID.contains(&tag.to_string().as_str()) {
            return Ok(Element { tag, attributes, children: Vec::new() });
        }
        let children = self.nodes()?;
        self.expect('<')?;
        self.expect('/')?;
        let end = self.ident()?;
        if end.to_string() != tag.to_string() {
            return Err(Fault::new(end.span(), format!("<{tag}> is to be ended here")));
        }
        self.expect('>')?;
        Ok(Element { tag, attributes, children })
    }

    fn attribute(&mut self) -> Result<Attribute, Fault> {
        let at = self.here();
        let length = self.name_length();
        let name: String = self.tokens.iter().skip(self.at).take(length).map(ToString::to_string).collect();
        self.at += length;
        if !self.is(0, '=') {
            return Ok(Attribute { name, at, value: None });
        }
        self.at += 1;
        let from = self.at;
        while self.at < self.tokens.len() && !self.ends(from) {
            self.at += 1;
        }
        if self.at == from {
            return Err(Fault::new(at, format!("`{name}` has no value")));
        }
        let value = self.tokens.iter().take(self.at).skip(from).cloned().collect();
        Ok(Attribute { name, at, value: Some(value) })
    }

    /// Tokens of the name that begins here.
    fn name_length(&self) -> usize {
        let mut n = 1;
        while (self.is(n, '-') || self.is(n, ':')) && self.is_ident(n + 1) {
            n += 2;
        }
        n
    }

    /// True where the value that began at `from` is over: at the tag's end or before the next name.
    fn ends(&self, from: usize) -> bool {
        if self.is(0, '>') || (self.is(0, '/') && self.is(1, '>')) {
            return true;
        }
        if self.at == from || !self.is_ident(0) {
            return false;
        }
        let next = self.name_length();
        let is_set = self.is(next, '=') && !self.is(next + 1, '=') && !self.is(next + 1, '>');
        // After a text or a block nothing of the same value can begin with a name: a bare attribute follows.
        let whole = self.at == from + 1
            && match self.tokens.get(from) {
                Some(TokenTree::Literal(_)) => true,
                Some(TokenTree::Group(group)) => group.delimiter() == Delimiter::Brace,
                _ => false,
            };
        is_set || whole
    }
}

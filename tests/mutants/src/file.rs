//! Finds each mutant's place in the parsed tree of a file.

use crate::place::Lines;
use crate::render::{Edit, on};
use crate::{Mutant, Placed};
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use syn::spanned::Spanned;
use syn::visit::{self, Visit};

pub fn edits(
    text: &str,
    mutants: &[Mutant],
    keep_const: &BTreeSet<String>,
    placed: &mut Placed,
) -> syn::Result<Vec<Edit>> {
    let tree = syn::parse_file(text)?;
    let lines = Lines::of(text);
    let mut at: BTreeMap<(usize, &str), Vec<&Mutant>> = BTreeMap::new();
    for mutant in mutants {
        at.entry((lines.listed(mutant.span).start, mutant.genre.as_str())).or_default().push(mutant);
    }
    let mut finder = Finder { text, lines, at, keep_const, constant: 0, edits: Vec::new(), placed };
    finder.visit_file(&tree);
    let Finder { at, edits, placed, .. } = finder;
    for mutant in at.into_values().flatten() {
        placed.left_out.insert(mutant.id, "its place was not found in the parsed file".to_owned());
    }
    Ok(edits)
}

struct Finder<'a> {
    text: &'a str,
    lines: Lines<'a>,
    at: BTreeMap<(usize, &'a str), Vec<&'a Mutant>>,
    keep_const: &'a BTreeSet<String>,
    /// How many layers of constants, statics and kept `const fn`s are around.
    constant: usize,
    edits: Vec<Edit>,
    placed: &'a mut Placed,
}

impl<'a> Finder<'a> {
    fn range(&self, node: &impl Spanned) -> Range<usize> {
        self.lines.parsed(node.span())
    }

    /// The mutants of a genre that begin here; none where no switch can stand.
    fn take(&mut self, start: usize, genre: &'static str) -> Vec<&'a Mutant> {
        let found = self.at.remove(&(start, genre)).unwrap_or_default();
        if self.constant == 0 {
            return found;
        }
        for mutant in found {
            self.placed.left_out.insert(mutant.id, "worked out by the compiler (const)".to_owned());
        }
        Vec::new()
    }

    /// The text of `whole` with `part` replaced.
    fn with(&self, whole: &Range<usize>, part: &Range<usize>, by: &str) -> String {
        format!("{}{by}{}", &self.text[whole.start..part.start], &self.text[part.end..whole.end])
    }

    fn choose(&mut self, range: Range<usize>, others: Vec<(u32, String)>) {
        if !others.is_empty() {
            self.edits.push(Edit::Choose { range, others });
        }
    }

    fn leave_out(&mut self, mutants: Vec<&Mutant>, why: &str) {
        for mutant in mutants {
            self.placed.left_out.insert(mutant.id, why.to_owned());
        }
    }

    fn constant(&mut self, is: bool, inside: impl FnOnce(&mut Self)) {
        self.constant += usize::from(is);
        inside(self);
        self.constant -= usize::from(is);
    }

    /// A function: its `const` goes if nothing needs it, and its body may give a fixed value at once.
    fn function(&mut self, signature: &syn::Signature, block: &syn::Block, inside: impl FnOnce(&mut Self)) {
        let kept = signature.constness.is_some() && self.keep_const.contains(&signature.ident.to_string());
        let body = self.range(block);
        let has_mutant =
            |at: &BTreeMap<(usize, &str), Vec<&Mutant>>| at.range((body.start, "")..(body.end, "")).next().is_some();
        if let Some(constness) = signature.constness.filter(|_| !kept && has_mutant(&self.at)) {
            let range = self.range(&constness);
            self.edits.push(Edit::Drop { range });
        }
        self.constant(kept, |finder| {
            if let Some(first) = block.stmts.first() {
                let start = finder.range(first).start;
                // Before the first statement, and before a switch that may stand around it.
                let at = finder.lines.parsed(block.brace_token.span.open()).end;
                for mutant in finder.take(start, "FnValue") {
                    let text = format!(" if {} {{ return {}; }}", on(mutant.id), mutant.replacement);
                    finder.edits.push(Edit::Insert { at, id: mutant.id, text });
                }
            }
            inside(finder);
        });
    }
}

/// Whether an expression binds names, so that it cannot stand in a branch of its own.
fn binds(node: &syn::Expr) -> bool {
    match node {
        syn::Expr::Let(_) => true,
        syn::Expr::Binary(two) => binds(&two.left) || binds(&two.right),
        _ => false,
    }
}

impl<'a> Visit<'a> for Finder<'a> {
    fn visit_item_fn(&mut self, node: &'a syn::ItemFn) {
        self.function(&node.sig, &node.block, |finder| visit::visit_item_fn(finder, node));
    }

    fn visit_impl_item_fn(&mut self, node: &'a syn::ImplItemFn) {
        self.function(&node.sig, &node.block, |finder| visit::visit_impl_item_fn(finder, node));
    }

    fn visit_trait_item_fn(&mut self, node: &'a syn::TraitItemFn) {
        if let Some(block) = &node.default {
            self.function(&node.sig, block, |finder| visit::visit_trait_item_fn(finder, node));
        }
    }

    fn visit_item_const(&mut self, node: &'a syn::ItemConst) {
        self.constant(true, |finder| visit::visit_item_const(finder, node));
    }

    fn visit_item_static(&mut self, node: &'a syn::ItemStatic) {
        self.constant(true, |finder| visit::visit_item_static(finder, node));
    }

    fn visit_impl_item_const(&mut self, node: &'a syn::ImplItemConst) {
        self.constant(true, |finder| visit::visit_impl_item_const(finder, node));
    }

    fn visit_trait_item_const(&mut self, node: &'a syn::TraitItemConst) {
        self.constant(true, |finder| visit::visit_trait_item_const(finder, node));
    }

    fn visit_type_array(&mut self, node: &'a syn::TypeArray) {
        self.constant(true, |finder| visit::visit_type_array(finder, node));
    }

    fn visit_expr_repeat(&mut self, node: &'a syn::ExprRepeat) {
        self.visit_expr(&node.expr);
        self.constant(true, |finder| finder.visit_expr(&node.len));
    }

    fn visit_pat(&mut self, node: &'a syn::Pat) {
        self.constant(true, |finder| visit::visit_pat(finder, node));
    }

    fn visit_variant(&mut self, node: &'a syn::Variant) {
        self.constant(true, |finder| visit::visit_variant(finder, node));
    }

    fn visit_expr_binary(&mut self, node: &'a syn::ExprBinary) {
        let (whole, sign) = (self.range(node), self.range(&node.op));
        let found = self.take(sign.start, "BinaryOperator");
        if binds(&node.left) || binds(&node.right) {
            self.leave_out(found, "a condition that binds names has no `or`: does not compile");
        } else {
            let others =
                found.iter().map(|mutant| (mutant.id, self.with(&whole, &sign, &mutant.replacement))).collect();
            self.choose(whole, others);
        }
        visit::visit_expr_binary(self, node);
    }

    fn visit_expr_unary(&mut self, node: &'a syn::ExprUnary) {
        let (whole, sign) = (self.range(node), self.range(&node.op));
        let found = self.take(sign.start, "UnaryOperator");
        let others = found.iter().map(|mutant| (mutant.id, self.with(&whole, &sign, &mutant.replacement))).collect();
        self.choose(whole, others);
        visit::visit_expr_unary(self, node);
    }

    /// Whether a match without one of its arms still covers every case is told of the match, not of the arm.
    fn visit_expr_match(&mut self, node: &'a syn::ExprMatch) {
        let starts: Vec<usize> = node.arms.iter().map(|arm| self.range(arm).start).collect();
        let found = starts.iter().filter_map(|start| self.at.get(&(*start, "MatchArm"))).flatten();
        let ids: Vec<u32> = found.map(|mutant| mutant.id).collect();
        if self.constant == 0 && !ids.is_empty() {
            self.edits.push(Edit::Around { range: self.range(node), ids });
        }
        visit::visit_expr_match(self, node);
    }

    fn visit_arm(&mut self, node: &'a syn::Arm) {
        let start = self.range(node).start;
        for mutant in self.take(start, "MatchArm") {
            let at = self.range(&node.pat).end;
            self.edits.push(Edit::Insert { at, id: mutant.id, text: format!(" if !{}", on(mutant.id)) });
        }
        if let Some((_, guard)) = &node.guard {
            let range = self.range(guard);
            let found = self.take(range.start, "MatchArmGuard");
            if binds(guard) {
                self.leave_out(found, "a guard that binds names");
            } else {
                self.choose(range, found.iter().map(|mutant| (mutant.id, mutant.replacement.clone())).collect());
            }
        }
        visit::visit_arm(self, node);
    }

    fn visit_expr_struct(&mut self, node: &'a syn::ExprStruct) {
        let whole = self.range(node);
        let mut others = Vec::new();
        for pair in node.fields.pairs() {
            let mut field = self.range(*pair.value());
            if let Some(comma) = pair.punct() {
                field.end = self.range(*comma).end;
            }
            for mutant in self.take(field.start, "StructField") {
                others.push((mutant.id, self.with(&whole, &field, "")));
            }
        }
        self.choose(whole, others);
        visit::visit_expr_struct(self, node);
    }
}

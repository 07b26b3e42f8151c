//! The card's laboratories: a row for each, and below it a row for each of its tests.

use leptos::prelude::*;

use super::card_fields::{Form, boxes, faults_at, input, one};
use super::desk::{tell, tell_with};
use crate::office::card_made::fields::{Kind, LABORATORIES, TESTS};

const AT: &str = "/laboratories";

pub(super) fn laboratories(form: Form) -> AnyView {
    let rows = (0..form.draft.with_untracked(|draft| draft.rows(LABORATORIES))).map(|n| laboratory(form, n));
    let add = move |_| {
        form.draft.update(|draft| draft.add_row(LABORATORIES));
        form.redraw();
    };
    view! {
        <p>{tell("card.page.laboratories.what")}</p>
        {faults_at(form, AT.to_owned())}
        {rows.collect_view()}
        <button type="button" class="act" data-act="add-laboratories" on:click=add>{tell("card.page.add.laboratories")}</button>
    }
    .into_any()
}

fn laboratory(form: Form, n: usize) -> AnyView {
    let (at, tests) = (format!("{AT}/{n}"), format!("{AT}/{n}/tests"));
    let rows =
        (0..form.draft.with_untracked(|draft| draft.rows_at(&tests))).map(|m| test(form, &tests, m)).collect_view();
    let add = move |_| {
        form.draft.update(|draft| draft.add_row_at(&tests, TESTS));
        form.redraw();
    };
    let away = move |_| {
        form.draft.update(|draft| draft.remove_row(LABORATORIES, n));
        form.redraw();
    };
    view! {
        <fieldset class="card-row" data-laboratory=n>
            <legend>{one(&at)}</legend>
            <div class="card-columns">{columns(form, &at, LABORATORIES.columns)}</div>
            {rows}
            <button type="button" class="act" data-act="add-tests" on:click=add>{tell("card.page.add.tests")}</button>
            {remove(n, away)}
        </fieldset>
    }
    .into_any()
}

fn test(form: Form, tests: &str, m: usize) -> AnyView {
    let (at, tests) = (format!("{tests}/{m}"), tests.to_owned());
    let away = move |_| {
        form.draft.update(|draft| draft.remove_row_at(&tests, m));
        form.redraw();
    };
    view! {
        <fieldset class="card-row" data-test=m>
            <legend>{tell_with("card.page.test", &[("n", (m + 1).to_string().into())])}</legend>
            <div class="card-columns">{columns(form, &at, TESTS)}</div>
            <p>{tell("card.page.column.samples")}</p>
            {boxes(form, &format!("{at}/samples"), "sample_what")}
            {remove(m, away)}
        </fieldset>
    }
    .into_any()
}

fn columns(form: Form, at: &str, all: &'static [(&'static str, Kind)]) -> AnyView {
    let one = |(name, kind): &(&str, Kind)| {
        input(form, format!("{at}/{name}"), *kind, tell(&format!("card.page.column.{name}")))
    };
    all.iter().map(one).collect_view().into_any()
}

fn remove(n: usize, act: impl Fn(leptos::ev::MouseEvent) + 'static) -> AnyView {
    let label = tell_with("card.page.remove", &[("n", (n + 1).to_string().into())]);
    view! { <button type="button" class="act" on:click=act>{label}</button> }.into_any()
}

//! The fields of the card's form, drawn from their table, each with its faults beneath it.

use leptos::prelude::*;

use super::desk::{Desk, LANGUAGE, tell, tell_with};
use super::view::{of_ours_bytes, read_file};
use crate::card::CallFor;
use crate::guide::hazards;
use crate::office::card_made::fields::{CALLS, Field, Kind, List, PERMITS, YES_NO};
use crate::office::card_made::{Draft, Fault};
use crate::record::find;
use crate::web::platform::clock::offset_on;
use crate::web::wording;
use crate::words::say;

/// The form's state.
#[derive(Clone, Copy)]
pub(super) struct Form {
    pub(super) draft: RwSignal<Draft>,
    pub(super) faults: Memo<Vec<Fault>>,
    /// Moves when rows come or go, or another card is begun: the fields are drawn anew then, and only then, so that
    /// nobody loses the field under the cursor.
    pub(super) shape: RwSignal<u32>,
}

impl Form {
    /// `newest` is the serial of the office's newest card.
    pub(super) fn new(draft: Draft, newest: Memo<Option<u64>>) -> Self {
        let draft = RwSignal::new(draft);
        let faults = Memo::new(move |_| draft.with(|draft| draft.checked(newest.get()).err().unwrap_or_default()));
        Self { draft, faults, shape: RwSignal::new(0) }
    }

    pub(super) fn begin(self, draft: Draft) {
        self.draft.try_set(draft);
        self.redraw();
    }

    /// Gives the draft a number that no card of the office has.
    pub(super) fn number_at_least(self, serial: u64) {
        let raised = self.draft.try_maybe_update(|draft| {
            let raised = draft.number_at_least(serial);
            (raised, raised)
        });
        if raised == Some(true) {
            self.redraw();
        }
    }

    pub(super) fn redraw(self) {
        self.shape.try_update(|shape| *shape = shape.wrapping_add(1));
    }

    fn set(self, at: &str, kind: Kind, typed: &str) {
        self.draft.try_update(|draft| draft.set(at, kind, typed, &offset_on));
    }

    pub(super) fn fields(self, fields: &'static [Field]) -> AnyView {
        fields.iter().map(|field| input(self, field.at.to_owned(), field.kind, one(field.at))).collect_view().into_any()
    }
}

/// A fault in words.
pub(super) fn words(fault: &Fault) -> String {
    tell_with("card.page.fault", &[("wrong", fault.wrong.as_str().into()), ("todo", tell(fault.todo).into())])
}

/// The name of the place at a pointer.
pub(super) fn one(at: &str) -> String {
    let parts: Vec<&str> = at.split('/').skip(1).collect();
    match parts.as_slice() {
        [] | ["" | "figures"] => tell("card.page.whole"),
        [list @ ("calls" | "permits" | "people" | "laboratories"), row, ..] => {
            let number = row.parse::<usize>().map_or(0, |n| n + 1);
            let name = tell(&format!("card.page.part.{list}"));
            tell_with("card.page.row", &[("list", name.into()), ("n", number.to_string().into())])
        }
        [list @ ("calls" | "permits" | "people" | "laboratories")] => tell(&format!("card.page.part.{list}")),
        ["cause", "table"] => tell("card.page.also.table"),
        ["flags", "predators"] => tell("card.page.part.predators"),
        [.., last] => tell(&format!("card.page.field.{last}")),
    }
}

pub(super) fn part(head: &str, body: AnyView) -> AnyView {
    view! { <fieldset class="card-part"><legend>{tell(head)}</legend>{body}</fieldset> }.into_any()
}

/// Faults whose place is exactly this.
pub(super) fn faults_at(form: Form, at: String) -> AnyView {
    let id = id_of(&at);
    let body = move || {
        let all = form.faults.get();
        let here = all.iter().filter(|fault| fault.at == at);
        here.map(|fault| view! { <p class="fault"><span aria-hidden="true">"\u{2717} "</span>{words(fault)}</p> })
            .collect_view()
    };
    view! { <div id=id class="faults">{body}</div> }.into_any()
}

fn id_of(at: &str) -> String {
    format!("fault{}", at.replace('/', "-"))
}

pub(super) fn input(form: Form, at: String, kind: Kind, label: String) -> AnyView {
    let value = form.draft.with_untracked(|draft| draft.text(&at, kind));
    let described = id_of(&at);
    let (place, name) = (at.clone(), at.clone());
    let bad = {
        let at = at.clone();
        move || form.faults.with(|all| all.iter().any(|fault| fault.at == at)).then_some("true")
    };
    let change = {
        let at = at.clone();
        move |event: web_sys::Event| form.set(&at, kind, &event_target_value(&event))
    };
    let body = match kind {
        Kind::Flag => {
            let tick = move |event: web_sys::Event| {
                form.set(&place, kind, if event_target_checked(&event) { "yes" } else { "" });
            };
            return view! {
                <label class="check-line">
                    <input type="checkbox" data-at=name prop:checked=value == "yes" on:change=tick/>
                    {label}
                </label>
            }
            .into_any();
        }
        Kind::Choice(_) | Kind::Maybe => {
            let codes: &[&str] = if let Kind::Choice(codes) = kind { codes } else { &YES_NO };
            let is_role = at.ends_with("/call_for");
            let options = codes
                .iter()
                .map(|code| {
                    let id = if is_role { format!("calls.for.{code}") } else { format!("card.page.choice.{code}") };
                    let chosen = value == *code;
                    view! { <option value=*code selected=chosen>{tell(&id)}</option> }
                })
                .collect_view();
            let none = (!is_role).then(|| {
                view! { <option value="" selected=value.is_empty()>{tell("card.page.choice.none")}</option> }
            });
            view! { <select data-at=name aria-describedby=described aria-invalid=bad on:change=change>{none}{options}</select> }
                .into_any()
        }
        Kind::DayBegins | Kind::DayEnds => view! {
            <input type="date" data-at=name aria-describedby=described aria-invalid=bad prop:value=value on:change=change/>
        }
        .into_any(),
        Kind::Words if at != "/cause/area" => view! {
            <textarea class="words" rows="2" data-at=name aria-describedby=described aria-invalid=bad prop:value=value
                on:change=change></textarea>
        }
        .into_any(),
        _ => view! {
            <input type="text" data-at=name aria-describedby=described aria-invalid=bad prop:value=value on:change=change/>
        }
        .into_any(),
    };
    view! { <div class="with-faults"><label class="field">{label}{body}</label>{faults_at(form, at)}</div> }.into_any()
}

/// A list with a row for each.
pub(super) fn list(form: Form, list: List) -> AnyView {
    let what = match list.member {
        "calls" => Some(tell("card.page.calls.what")),
        "people" => Some(tell("card.page.people.what")),
        _ => None,
    };
    let rows = (0..form.draft.with_untracked(|draft| draft.rows(list)))
        .map(|n| {
            let columns = list
                .columns
                .iter()
                .map(|(name, kind)| {
                    input(
                        form,
                        format!("/{}/{n}/{name}", list.member),
                        *kind,
                        tell(&format!("card.page.column.{name}")),
                    )
                })
                .collect_view();
            let stops = (list.member == CALLS.member).then(|| stops(form, n));
            let remove = move |_| {
                form.draft.update(|draft| draft.remove_row(list, n));
                form.redraw();
            };
            let row = one(&format!("/{}/{n}", list.member));
            view! {
                <fieldset class="card-row">
                    <legend>{row}</legend>
                    <div class="card-columns">{columns}</div>
                    {stops}
                    <button type="button" class="act" on:click=remove>
                        {tell_with("card.page.remove", &[("n", (n + 1).to_string().into())])}
                    </button>
                </fieldset>
            }
        })
        .collect_view();
    let add = move |_| {
        form.draft.update(|draft| draft.add_row(list));
        form.redraw();
    };
    let label = match list.member {
        member if member == CALLS.member => tell("card.page.add.calls"),
        member if member == PERMITS.member => tell("card.page.add.permits"),
        _ => tell("card.page.add.people"),
    };
    view! {
        {what.map(|what| view! { <p>{what}</p> })}
        {faults_at(form, format!("/{}", list.member))}
        {rows}
        <button type="button" class="act" data-act=format!("add-{}", list.member) on:click=add>{label}</button>
    }
    .into_any()
}

/// At which stops a row's contact is named.
fn stops(form: Form, row: usize) -> AnyView {
    let kind = CALLS.columns.first().map_or(Kind::Line, |(_, kind)| *kind);
    let body = move || {
        let role = form.draft.with(|draft| draft.text(&format!("/calls/{row}/call_for"), kind));
        let named = hazards::all().filter(|hazard| hazard.call.is_some_and(|call: CallFor| call.code() == role));
        let heads: Vec<String> =
            named.map(|hazard| say(LANGUAGE, &format!("hazard.{}.head", hazard.code), &[])).collect();
        (!heads.is_empty()).then(|| tell_with("card.page.calls.for", &[("stops", heads.join("; ").into())]))
    };
    view! { <p class="how">{body}</p> }.into_any()
}

/// A box for each option of a finding: those that stand in the list of codes at `at`.
pub(super) fn boxes(form: Form, at: &str, finding: &'static str) -> AnyView {
    let codes = find(finding).map(crate::record::FindingDef::options).unwrap_or_default();
    let boxes = codes
        .iter()
        .map(|code| {
            let on = form.draft.with_untracked(|draft| draft.has_code(at, code));
            let place = at.to_owned();
            let tick = move |event: web_sys::Event| {
                let stands = event_target_checked(&event);
                form.draft.update(|draft| draft.set_code(&place, code, stands));
            };
            view! {
                <label class="check-line">
                    <input type="checkbox" data-at=format!("{at}/{code}") prop:checked=on on:change=tick/>
                    {wording::option(LANGUAGE, finding, code)}
                </label>
            }
        })
        .collect_view();
    view! { <div class="card-columns">{boxes}</div>{faults_at(form, at.to_owned())} }.into_any()
}

/// What comes onto the card from files, and what else is on it.
pub(super) fn table_and_readers(desk: Desk, form: Form) -> AnyView {
    let said = RwSignal::new(None::<String>);
    let after = move |taken: Result<(), String>| {
        said.try_set(taken.err().map(|why| tell_with("card.page.not_taken", &[("reason", why.into())])));
    };
    let table = move |_: String, read: Result<Vec<u8>, String>| {
        let take = |bytes: Vec<u8>| form.draft.try_update(|draft| draft.take_table(&bytes, desk.office()));
        after(read.and_then(|bytes| take(bytes).unwrap_or(Ok(()))));
    };
    let readers = move |_: String, read: Result<Vec<u8>, String>| {
        let take = |bytes: Vec<u8>| form.draft.try_update(|draft| draft.take_reader_model(&bytes, desk.office()));
        after(read.and_then(|bytes| take(bytes).unwrap_or(Ok(()))));
    };
    let also = move || {
        let carried = form.draft.with(Draft::carried);
        if carried.is_empty() {
            return view! { <p>{tell("card.page.also.none")}</p> }.into_any();
        }
        let lines = carried
            .into_iter()
            .map(|at| {
                let what = tell(&format!("card.page.also.{}", at.rsplit('/').next().unwrap_or_default()));
                let label = tell_with("card.page.leave_out", &[("what", what.as_str().into())]);
                let act = move |_| form.draft.update(|draft| draft.leave_out(at));
                view! {
                    <li data-also=at>
                        {what}" "
                        <button type="button" class="act" on:click=act>{label}</button>
                        {faults_at(form, at.to_owned())}
                    </li>
                }
            })
            .collect_view();
        view! { <p>{tell("card.page.also")}</p><ul>{lines}</ul> }.into_any()
    };
    view! {
        <label class="tile file aside" data-pick="table">
            <span class="label">{tell("card.page.table")}</span>
            <input type="file" class="file-input" on:change=move |event| read_file(&event, of_ours_bytes(), table)/>
        </label>
        <label class="tile file aside" data-pick="readers">
            <span class="label">{tell("card.page.reader_model")}</span>
            <input type="file" class="file-input" on:change=move |event| read_file(&event, of_ours_bytes(), readers)/>
        </label>
        <div role="alert">{move || said.get().map(|why| view! { <p class="alert">{why}</p> })}</div>
        {faults_at(form, "/figures".to_owned())}
        {also}
    }
    .into_any()
}

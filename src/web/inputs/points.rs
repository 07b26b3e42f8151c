//! Points under pins: one tap a point, ten points a row, one entry a row. What of a row is not full yet is
//! kept in both stores at each tap, under the row's number, so that a page that dies loses no point and
//! none comes twice.

use leptos::prelude::*;

use crate::guide::{Draft, PointCount, point_count};
use crate::record::{Answer, Site, Value};
use crate::science::diet::points::{BETTER, FEWEST};
use crate::web::form::Form;
use crate::web::parts::{Look, main_tile_unless, tile};
use crate::words::Arg;

use super::Question;
use super::plants::{GROUPS, name, picker, turn_to};

/// What the taps need to know.
#[derive(Clone, Copy)]
struct Count {
    form: Form,
    step: &'static str,
    points: &'static str,
    done: &'static str,
}

pub(super) fn points(q: &Question, points: &'static str, done: &'static str) -> AnyView {
    let count = Count { form: q.form, step: q.step.id, points, done };
    let form = q.form;
    let palette = Memo::new(move |_| count.palette());
    let shown = move || {
        let page = form.page.get();
        if page >= GROUPS || palette.with(Vec::is_empty) {
            return picker(form, page.max(GROUPS), move |plant| count.tap(plant.code));
        }
        let tiles = palette.get().into_iter().map(|code| plant_tile(count, code)).collect_view();
        let another = tile(form, "another", form.say("plants.another"), Look::Aside, move || turn_to(form, GROUPS));
        view! { <div class="plants">{tiles}{another}</div> }.into_any()
    };
    let undo = tile(form, "undo", form.say("points.undo"), Look::Aside, move || count.undo());
    let no_answer = q.no_answer();
    let few = move || {
        let (counted, row) = count.now();
        counted.is_few(row.len())
    };
    let end = main_tile_unless(form, "count-done", few, move || form.say("points.done"), move || count.end());
    view! {
        <div class="tiles">
            {state(count)}
            {shown}
            <div class="foot">{end}{undo}{no_answer}</div>
        </div>
    }
    .into_any()
}

/// How many points there are, and how far the row is.
fn state(count: Count) -> AnyView {
    let form = count.form;
    let n = |n: usize| Arg::Count(i64::try_from(n).unwrap_or(i64::MAX));
    let total = move || {
        let (counted, row) = count.now();
        let total = form.say_with("points.total", &[("n", Arg::Count(i64::from(counted.total(row.len()))))]);
        let few = counted.is_few(row.len()).then(|| {
            let better = Arg::Count(i64::from(BETTER));
            form.say_with("points.few", &[("n", Arg::Count(i64::from(FEWEST))), ("better", better)])
        });
        view! { <strong data-points=counted.total(row.len())>{total}</strong> " " {few} }.into_any()
    };
    let row = move || {
        let (_, row) = count.now();
        let pips: String =
            (0..PointCount::FRAME).map(|at| if at < row.len() { '\u{25cf}' } else { '\u{25cb}' }).collect();
        let words = form.say_with("points.row", &[("n", n(row.len())), ("all", n(PointCount::FRAME))]);
        view! { {words} " " <span class="pips" aria-hidden="true">{pips}</span> }.into_any()
    };
    view! {
        <div class="count" role="status">
            <p>{total}</p>
            <p>{row}</p>
        </div>
    }
    .into_any()
}

fn plant_tile(count: Count, code: String) -> AnyView {
    let form = count.form;
    let plant = name(form, &code);
    let points = {
        let code = code.clone();
        move || {
            let (counted, row) = count.now();
            let row: Vec<&str> = row.iter().map(String::as_str).collect();
            counted.of(&code, &row)
        }
    };
    let tapped = code.clone();
    view! {
        <button
            type="button"
            class="tile"
            data-tile=code
            on:click=move |event| {
                if form.is_meant(&event) {
                    count.tap(&tapped);
                }
            }
        >
            <span class="label">{plant}</span>
            <span class="of-plant">{points}</span>
        </button>
    }
    .into_any()
}

impl Count {
    /// The rows in the journal, and the row in hand.
    fn now(self) -> (PointCount, Vec<String>) {
        let counted = self.form.now.with(|now| point_count(&now.view()));
        let row = row_in_hand(&self.form.typed.get(), counted.next_frame);
        (counted, row)
    }

    /// The same, without following changes.
    fn now_once(self) -> Option<(PointCount, Vec<String>)> {
        let counted = point_count(&self.form.now_once()?.view());
        let row = row_in_hand(&self.form.typed.try_get_untracked()?, counted.next_frame);
        Some((counted, row))
    }

    /// Plants tapped so far, in the order in which they first came: tiles keep their places.
    fn palette(self) -> Vec<String> {
        let (counted, row) = self.now();
        let mut all = counted.order;
        for code in row {
            if !all.contains(&code) {
                all.push(code);
            }
        }
        all
    }

    fn frame(self, number: u16, row: &[String]) -> Draft {
        let answer = Answer::Seen { value: Value::Text(row.join(" ")) };
        Draft { finding: self.points, site: Site::item(number), answer, step: self.step }
    }

    /// One point. A full row goes into the journal.
    fn tap(self, code: &str) {
        let Some((counted, mut row)) = self.now_once() else { return };
        // What was said of the tap before holds no longer.
        self.form.hush();
        row.push(code.to_owned());
        if row.len() < PointCount::FRAME {
            self.form.keep_row(counted.next_frame, &row);
        } else {
            let what = self.form.say_with("points.row_saved", &[("n", Arg::Count(i64::from(counted.next_frame)))]);
            if self.form.write_drafts(&[self.frame(counted.next_frame, &row)], what) {
                self.form.keep_row(counted.next_frame.saturating_add(1), &[]);
            }
        }
        if self.form.page.try_get_untracked() != Some(0) {
            turn_to(self.form, 0);
        }
    }

    /// Takes the last point away; where the row is empty, the last row is withdrawn and stands open again
    /// without its last point. The open row is kept before the withdrawal is written.
    fn undo(self) {
        let Some((counted, mut row)) = self.now_once() else { return };
        if row.pop().is_some() {
            return self.form.keep_row(counted.next_frame, &row);
        }
        let Some((number, mut last)) = counted.last else { return };
        last.pop();
        self.form.keep_row(number, &last);
        if !self.form.take_back_questions(&[(self.points, Site::item(number))]) {
            self.form.keep_row(counted.next_frame, &[]);
            self.form.tell(self.form.say("points.not_yours"));
        }
    }

    fn end(self) {
        let Some((counted, row)) = self.now_once() else { return };
        if counted.total(row.len()) == 0 {
            return self.form.tell(self.form.say("points.none_yet"));
        }
        let done = Draft { finding: self.done, site: Site::NONE, answer: Answer::choice("counted"), step: self.step };
        let begun = (!row.is_empty()).then(|| self.frame(counted.next_frame, &row));
        let drafts: Vec<Draft> = begun.into_iter().chain([done]).collect();
        self.form.answer(&drafts);
    }
}

/// The codes of the row in hand, where what was kept is of this row and not of one saved since.
fn row_in_hand(kept: &str, row: u16) -> Vec<String> {
    let mut words = kept.split(' ').filter(|word| !word.is_empty());
    if words.next() != Some(row.to_string().as_str()) {
        return Vec::new();
    }
    words.map(str::to_owned).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_that_was_saved_since_does_not_come_twice() {
        assert_eq!(row_in_hand("3 spruce pine", 3), ["spruce", "pine"]);
        assert!(row_in_hand("3 spruce pine", 4).is_empty(), "row 3 is in the journal already");
        assert!(row_in_hand("", 1).is_empty() && row_in_hand("spruce", 1).is_empty());
    }
}

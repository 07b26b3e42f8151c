//! Laboratory and calls: what was handed in, what waits to be sent, a laboratory's sheet read in, and whom to call.

mod handed_in;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use leptos::prelude::*;

use super::desk::{Desk, Part, count, now, tell, tell_with};
use super::fields::{Takes, see, typed};
use super::figures::in_parts;
use super::rows::{AT_ONCE, drawn};
use super::signed::{Said, by_field, no_key, said_line};
use super::view::{ReadFile, read_files};
use crate::card::Laboratory;
use crate::guide::answer_words;
use crate::office::calls::Call;
use crate::office::csv_sheet::CsvSheet;
use crate::office::hand::{By, Checked, Figures, Hand, Listed, Listing};
use crate::office::lab_sheet::{At, Outcome};
use crate::office::send_out::{Line, Parcel, State};
use crate::record::PersonCode;
use crate::web::platform::clock;
use crate::web::platform::random::fill;

/// What was found, as of some figures.
struct Found {
    figures: Arc<Figures>,
    listed: Listed,
}

/// A sheet that was picked, and how it is to be taken.
#[derive(Clone)]
struct Sheet {
    name: String,
    bytes: Arc<[u8]>,
    without: BTreeSet<u64>,
    correct: bool,
}

/// What the part shares.
#[derive(Clone, Copy)]
struct Bench {
    desk: Desk,
    person: RwSignal<String>,
    said: Said,
    found: RwSignal<Option<Arc<Found>>>,
    /// Numbers ticked to be sent, by laboratory.
    ticked: RwSignal<BTreeMap<String, BTreeSet<String>>>,
    /// Place, seal and state of the parcel.
    parcel: [RwSignal<String>; 3],
    /// Numbers ticked as received.
    received: RwSignal<BTreeSet<String>>,
    /// Place and state of what was received, and how its seals were.
    receipt: [RwSignal<String>; 3],
    sheet: RwSignal<Option<Sheet>>,
    /// Numbers of people; of this page only.
    numbers: RwSignal<BTreeMap<String, String>>,
    shown: [RwSignal<usize>; 4],
    also_done: RwSignal<bool>,
}

pub(super) fn laboratory(desk: Desk) -> AnyView {
    let part = Bench {
        desk,
        person: RwSignal::new(String::new()),
        said: RwSignal::new(None),
        found: RwSignal::new(None),
        ticked: RwSignal::default(),
        parcel: std::array::from_fn(|_| RwSignal::default()),
        received: RwSignal::default(),
        receipt: std::array::from_fn(|_| RwSignal::default()),
        sheet: RwSignal::new(None),
        numbers: RwSignal::default(),
        shown: std::array::from_fn(|_| RwSignal::new(AT_ONCE)),
        also_done: RwSignal::new(false),
    };
    part.keep_finding();
    let body = move || match (desk.figures.get().is_some(), part.found.get()) {
        (false, _) => view! { <p>{tell("desk.carcasses.none")}</p> }.into_any(),
        (_, None) => view! { <p role="status">{tell("laboratory.page.working")}</p> }.into_any(),
        (_, Some(found)) => {
            view! { {part.handed_in(&found)} {part.to_send(&found)} {part.results(&found)} {part.calls(&found)} }
                .into_any()
        }
    };
    view! {
        <section data-part="laboratory">
            <h2>{tell("laboratory.page.head")}</h2>
            <p>{tell("laboratory.page.what")}</p>
            {no_key(desk, "laboratory.page.no_key")}
            {by_field(desk, "bench-by", part.person)}
            <div role="alert" data-bench-said="">{said_line(part.said)}</div>
            {body}
        </section>
    }
    .into_any()
}

impl Bench {
    /// Finds all of it once somebody looks at this part, in short parts.
    fn keep_finding(self) {
        let turn = StoredValue::new(0_u32);
        Effect::new(move || {
            let (figures, looked_at) = (self.desk.figures.get(), self.desk.part.get() == Part::Laboratory);
            let numbers = self.numbers.get();
            turn.update_value(|turn| *turn = turn.wrapping_add(1));
            let mine = turn.get_value();
            let Some(figures) = figures.filter(|_| looked_at) else { return };
            let Some(local) = self.desk.hand.try_with_untracked(|hand| hand.local(now(), numbers)) else { return };
            leptos::task::spawn_local(async move {
                let goes_on = || turn.try_get_value() == Some(mine);
                // What was tapped is drawn first.
                clock::drawn().await;
                let mut listing = Listing::of(&local, &figures.counted);
                if in_parts(|| listing.step(), goes_on).await {
                    let listed = listing.done();
                    self.found.try_set(Some(Arc::new(Found { figures: Arc::clone(&figures), listed })));
                }
            });
        });
    }

    /// Does what is signed, as whoever typed a code, and says how it went.
    fn act(self, done: &'static str, act: impl FnOnce(&By) -> Result<(), String>) -> bool {
        let person = PersonCode::new(self.person.get_untracked().trim())
            .map_err(|error| tell_with("laboratory.page.no_code", &[("reason", error.to_string().into())]));
        let chance = |bytes: &mut [u8]| fill(bytes).map_err(|error| error.to_string());
        let refused = |why: String| tell_with("laboratory.page.refused", &[("reason", why.into())]);
        let went = person.and_then(|person| act(&By { person, now: now(), fill: &chance }).map_err(refused));
        let good = went.is_ok();
        self.said.set(Some((good, went.map_or_else(|why| why, |()| tell(done)))));
        good
    }

    fn to_send(self, found: &Arc<Found>) -> AnyView {
        let laboratories = match &found.listed.laboratories {
            Ok(all) => all,
            Err(why) => {
                let words = tell_with("laboratory.page.no_laboratories", &[("reason", why.as_str().into())]);
                return view! { <h3>{tell("laboratory.page.samples")}</h3><p class="alert" data-laboratories="none">{words}</p> }
                    .into_any();
            }
        };
        let parts = laboratories.iter().map(|one| self.of_laboratory(one, found)).collect_view();
        let field = |at: usize, name: &'static str, label: &str| {
            let held = self.parcel.get(at).copied().unwrap_or_default();
            typed(held, name, tell(label), Takes::words(200))
        };
        view! {
            <section data-samples=found.listed.lines.len()>
                <h3>{tell("laboratory.page.samples")}</h3>
                <p>{tell("laboratory.page.samples.what")}</p>
                {field(0, "parcel-place", "laboratory.page.place")}
                {field(1, "parcel-seal", "laboratory.page.seal")}
                {field(2, "parcel-condition", "laboratory.page.condition")}
                {parts}
            </section>
        }
        .into_any()
    }

    fn of_laboratory(self, laboratory: &Laboratory, found: &Arc<Found>) -> AnyView {
        let code = laboratory.code.to_string();
        let of_this = found.listed.lines.iter().enumerate().filter(|(_, line)| line.laboratory == code);
        // By their places: the lines of thousands of samples are not copied for the few that are drawn.
        let (open, answered): (Vec<_>, Vec<_>) = of_this.partition(|(_, line)| line.state < State::Answered);
        let open: Vec<usize> = open.into_iter().map(|(at, _)| at).collect();
        let answered = answered.len();
        let head = format!("{code}: {}", laboratory.name);
        let ticked = {
            let code = code.clone();
            move || self.ticked.with(|all| all.get(&code).map_or(0, BTreeSet::len))
        };
        let send = {
            let (code, found) = (code.clone(), Arc::clone(found));
            move |_| self.send(&code, &found)
        };
        let (of, all) = (code.clone(), Arc::clone(found));
        let rows = drawn(open, self.shown[0], move |at| {
            all.listed.lines.get(*at).map(|line| self.sample(&of, line, &all)).into_any()
        });
        let label = move || tell_with("laboratory.page.send", &[("n", count(ticked()))]);
        view! {
            <article class="opened" data-laboratory=code>
                <h4>{head}</h4>
                <p>{laboratory.address.clone()}</p>
                <ul class="rows">{rows}</ul>
                <p>{tell_with("laboratory.page.answered", &[("n", count(answered))])}</p>
                <button type="button" class="act" data-act="send" on:click=send>{label}</button>
            </article>
        }
        .into_any()
    }

    fn sample(self, laboratory: &str, line: &Line, found: &Arc<Found>) -> AnyView {
        let (number, laboratory) = (line.number.clone(), laboratory.to_owned());
        let is_ticked = {
            let (number, laboratory) = (number.clone(), laboratory.clone());
            move || self.ticked.with(|all| all.get(&laboratory).is_some_and(|all| all.contains(&number)))
        };
        let tick = {
            let number = number.clone();
            move |event| {
                let on = event_target_checked(&event);
                self.ticked.update(|all| {
                    let all = all.entry(laboratory.clone()).or_default();
                    if on {
                        all.insert(number.clone())
                    } else {
                        all.remove(&number)
                    };
                });
            }
        };
        let carcass = line.carcass;
        let head = format!("{number}, {}: {}", line.test, line.state_words());
        let label = line.label.iter().map(|line| view! { <li>{line.clone()}</li> }).collect_view();
        let custody = line.custody.iter().map(|line| view! { <li>{line.clone()}</li> }).collect_view();
        let can_go = line.state == State::NotSent || line.state == State::Unsuitable;
        let tick = can_go.then(|| {
            view! { <input type="checkbox" data-tick=number.clone() prop:checked=is_ticked on:change=tick/> }
        });
        view! {
            <li data-sample=line.number.clone() data-test=line.test.clone()>
                <label class="field">{tick} <strong>{head}</strong></label>
                <details class="why">
                    <summary>{tell("laboratory.page.label")}</summary>
                    <ul>{label}</ul>
                    <p>{line.packing.clone()}</p>
                    <ul>{custody}</ul>
                </details>
                {see(self.desk, carcass, &line.code)}
                {self.back(line, found)}
            </li>
        }
        .into_any()
    }

    fn send(self, laboratory: &str, found: &Arc<Found>) {
        let numbers: Vec<String> =
            self.ticked.with_untracked(|all| all.get(laboratory).into_iter().flatten().cloned().collect());
        if numbers.is_empty() {
            return self.said.set(Some((false, tell("laboratory.page.none_ticked"))));
        }
        let [place, seal, condition] = self.parcel.map(|one| one.get_untracked().trim().to_owned());
        let key = self.desk.key_now();
        let went = self.act("laboratory.page.sent", |by| {
            let from = by.person.clone();
            let parcel = Parcel { laboratory, numbers: &numbers, tests: &[], from, place, seal, condition };
            self.change(|hand| hand.send((&found.figures, &found.listed), &parcel, key.as_deref(), by))
        });
        if went {
            self.ticked.update(|all| drop(all.remove(laboratory)));
        }
    }

    /// Changes the archive. A page that is gone has written nothing.
    fn change<E: ToString>(self, act: impl FnOnce(&mut Hand) -> Result<(), E>) -> Result<(), String> {
        let done = self.desk.hand.try_update(act);
        done.ok_or_else(|| tell("decide.gone"))?.map_err(|error| error.to_string())
    }

    fn results(self, found: &Arc<Found>) -> Option<AnyView> {
        found.listed.laboratories.as_ref().ok()?;
        let take = move |files: Vec<ReadFile>| {
            let Some((name, read)) = files.into_iter().next() else { return };
            match read {
                Some(Ok(bytes)) => {
                    self.said.try_set(None);
                    let sheet = Sheet { name, bytes: bytes.into(), without: BTreeSet::new(), correct: false };
                    self.sheet.try_set(Some(sheet));
                }
                Some(Err(why)) => {
                    drop(
                        self.said
                            .try_set(Some((false, tell_with("laboratory.page.refused", &[("reason", why.into())])))),
                    );
                }
                None => drop(self.said.try_set(Some((false, tell("laboratory.page.too_large"))))),
            }
        };
        let found = Arc::clone(found);
        let checked = move || {
            let sheet = self.sheet.get()?;
            Some(self.checked(&sheet, &found))
        };
        Some(
            view! {
                <section>
                    <h3>{tell("laboratory.page.results")}</h3>
                    <p>{tell("laboratory.page.results.what")}</p>
                    <label class="tile file" data-pick="sheet">
                        <span class="label">{tell("laboratory.page.pick")}</span>
                        <input type="file" class="file-input" on:change=move |event| read_files(&event, take)/>
                    </label>
                    {checked}
                </section>
            }
            .into_any(),
        )
    }

    /// A sheet line by line, and the button that enters it.
    fn checked(self, sheet: &Sheet, found: &Found) -> AnyView {
        // Only looked at: who enters it is asked for at the button.
        let person = PersonCode::new(self.person.get_untracked().trim()).unwrap_or_else(|_| PersonCode::unnamed());
        let chance = |bytes: &mut [u8]| fill(bytes).map_err(|error| error.to_string());
        let by = By { person, now: now(), fill: &chance };
        let how = (sheet.correct, &sheet.without);
        let read = self
            .desk
            .hand
            .try_with_untracked(|hand| hand.check_sheet((&found.figures, &found.listed), &sheet.bytes, how, &by));
        let checked = match read.unwrap_or_else(|| Err(tell("decide.gone"))) {
            Ok(checked) => checked,
            Err(why) => {
                let args = [("name", sheet.name.as_str().into()), ("reason", why.into())];
                return view! { <p class="alert" data-sheet="none">{tell_with("laboratory.page.no_sheet", &args)}</p> }
                    .into_any();
            }
        };
        let Checked { lines, acts, wrong } = checked;
        let rows = lines
            .iter()
            .map(|line| {
                let (number, out) = (line.line, line.outcome == Outcome::LeftOut);
                let fits = !matches!(line.outcome, Outcome::Mismatch(_));
                let leave = move |event| {
                    let on = event_target_checked(&event);
                    self.sheet.update(|sheet| {
                        if let Some(sheet) = sheet {
                            if on {
                                sheet.without.insert(number)
                            } else {
                                sheet.without.remove(&number)
                            };
                        }
                    });
                };
                view! {
                    <li data-line=number data-fits=fits.to_string()>
                        <p class=(!fits).then_some("alert")>{line.words(At::Page)}</p>
                        <label class="field">
                            <input type="checkbox" data-leave=number prop:checked=out on:change=leave/>
                            {tell("laboratory.page.leave_out")}
                        </label>
                    </li>
                }
            })
            .collect_view();
        let n = acts.len();
        let state = match (wrong, n) {
            (0, 0) => tell("laboratory.page.nothing_new"),
            (0, _) => tell_with("laboratory.page.fits", &[("n", count(lines.len()))]),
            _ => tell_with("laboratory.page.wrong", &[("n", count(wrong))]),
        };
        let enter = move |_| {
            let key = self.desk.key_now();
            // Whoever enters it signs: the lines are read again in that person's name.
            let Some(sheet) = self.sheet.get_untracked() else { return };
            let Some(found) = self.found.get_untracked() else { return };
            let went = self.act("laboratory.page.entered", |by| {
                let how = (sheet.correct, &sheet.without);
                let of = (&*found.figures, &found.listed);
                self.change(|hand| hand.enter_sheet(of, &sheet.bytes, how, key.as_deref(), by))
            });
            if went {
                self.sheet.set(None);
            }
        };
        let correct = move |event| {
            let on = event_target_checked(&event);
            self.sheet.update(|sheet| {
                if let Some(sheet) = sheet {
                    sheet.correct = on;
                }
            });
        };
        view! {
            <article class="opened" data-sheet=lines.len() data-wrong=wrong>
                <h4>{sheet.name.clone()}</h4>
                <p role="status">{state}</p>
                <ul class="rows">{rows}</ul>
                <label class="field">
                    <input type="checkbox" data-field="correct" prop:checked=sheet.correct on:change=correct/>
                    {tell("laboratory.page.correct")}
                </label>
                {(wrong == 0 && n > 0).then(|| view! {
                    <button type="button" class="tile main" data-act="enter" on:click=enter>{tell("laboratory.page.enter")}</button>
                })}
            </article>
        }
        .into_any()
    }

    fn calls(self, found: &Arc<Found>) -> AnyView {
        let calls = found.listed.calls.iter().enumerate();
        let (open, made): (Vec<_>, Vec<_>) = calls.partition(|(_, call)| call.done.is_none());
        let [open, made] = [open, made].map(|all| all.into_iter().map(|(at, _)| at).collect::<Vec<usize>>());
        let (n, done) = (open.len(), made.len());
        let take = move |files: Vec<ReadFile>| {
            let Some((_, read)) = files.into_iter().next() else { return };
            let read = read.unwrap_or_else(|| Err(tell("laboratory.page.too_large")));
            match read.and_then(|bytes| CsvSheet::numbers(&bytes).map_err(|error| error.to_string())) {
                Ok(numbers) => drop(self.numbers.try_set(numbers)),
                Err(why) => {
                    drop(
                        self.said
                            .try_set(Some((false, tell_with("laboratory.page.no_numbers", &[("reason", why.into())])))),
                    );
                }
            }
        };
        let of = |found: Arc<Found>| {
            move |at: &usize| found.listed.calls.get(*at).map(|call| self.call(&found, call)).into_any()
        };
        let rows = drawn(open, self.shown[1], of(Arc::clone(found)));
        let made = drawn(made, self.shown[2], of(Arc::clone(found)));
        let made = move || self.also_done.get().then(&made);
        let none = (n == 0).then(|| view! { <p>{tell("laboratory.page.calls.none")}</p> });
        view! {
            <section data-calls=n>
                <h3>{tell_with("laboratory.page.calls", &[("n", count(n))])}</h3>
                <p class="alert">{tell("laboratory.page.calls.private")}</p>
                <label class="tile file aside" data-pick="numbers">
                    <span class="label">{tell("laboratory.page.pick_numbers")}</span>
                    <input type="file" class="file-input" on:change=move |event| read_files(&event, take)/>
                </label>
                {none}
                <ul class="rows">{rows}</ul>
                {(done > 0).then(|| view! {
                    <button type="button" class="act" data-act="made" on:click=move |_| self.also_done.update(|on| *on = !*on)>
                        {tell_with("laboratory.page.calls.made", &[("n", count(done))])}
                    </button>
                })}
                <ul class="rows">{made}</ul>
            </section>
        }
        .into_any()
    }

    fn call(self, found: &Arc<Found>, call: &Call) -> AnyView {
        let number = if call.number.is_empty() { tell("laboratory.page.no_number") } else { call.number.clone() };
        let head = format!("{}: {}, {number}", call.code, call.who);
        let why = call.why.iter().map(|why| view! { <li>{why.clone()}</li> }).collect_view();
        let made = call.done.as_ref().map(|done| {
            let args = [("who", done.by.as_str().into()), ("when", answer_words::date_and_time(done.at).into())];
            view! { <p>{tell_with("laboratory.page.call.made", &args)}</p> }
        });
        let is_made = call.done.is_some();
        let (this, carcass, found) = (call.clone(), call.carcass, Arc::clone(found));
        let mark = move |_| {
            let key = self.desk.key_now();
            self.act(if is_made { "laboratory.page.call.back" } else { "laboratory.page.call.marked" }, |by| {
                self.change(|hand| hand.mark_call(&found.figures, &this, !is_made, key.as_deref(), by))
            });
        };
        view! {
            <li data-call=call.call.clone()>
                <p><strong>{head}</strong></p>
                <ul>{why}</ul>
                {made}
                <button type="button" class="act" data-act="mark" on:click=mark>
                    {tell(if is_made { "laboratory.page.call.undo" } else { "laboratory.page.call.done" })}
                </button>
                {see(self.desk, carcass, &call.code)}
            </li>
        }
        .into_any()
    }
}

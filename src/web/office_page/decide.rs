//! What waits for a person, and the buttons that make it a signed decision. Nothing is joined or chosen by itself.

use std::collections::BTreeMap;
use std::sync::{Arc, Weak};

use leptos::prelude::*;
use uuid::Uuid;

use super::desk::{Desk, Part, count, now, tell, tell_with};
use super::fields::see;
use super::figures::{are, in_parts};
use super::rows::{AT_ONCE, drawn};
use super::signed::{self, by_field, no_key, said_line};
use crate::guide::answer_words;
use crate::office::hand::{Decision, Figures, Random};
use crate::office::to_decide::{Comparing, Decided, Double, Looking, Said, Split, Waiting, odd_words};
use crate::reading::{Given, winter_log};
use crate::record::short_code::short_code;
use crate::record::{Moment, PersonCode};
use crate::web::platform::clock;
use crate::web::platform::random::fill;

/// Without what was just decided: the figures follow in a moment.
fn drop_decided(waiting: &mut Waiting, decision: &Decision) {
    match decision {
        Decision::Same(one, other) | Decision::Apart(one, other) => {
            let is_it = |[a, b]: &[Uuid; 2]| (a, b) == (one, other) || (b, a) == (one, other);
            waiting.said_same.retain(|pair| !is_it(pair));
            waiting.doubles.retain(|double| !is_it(&[double.one, double.other]));
            waiting.joined.retain(|pair| !is_it(pair));
            waiting.two.retain(|pair| !is_it(pair));
        }
        Decision::Answer { entry, .. } => {
            waiting.open.retain(|split| split.answers.iter().all(|answer| answer.entry != *entry));
        }
        Decision::Undo { entry, .. } => waiting.decided.retain(|one| one.made.entry != *entry),
    }
}

/// What the part shares.
#[derive(Clone, Copy)]
struct Decide {
    desk: Desk,
    person: RwSignal<String>,
    said: signed::Said,
    /// Reasons half typed, by question: figures that come anew must not lose them.
    reasons: RwSignal<BTreeMap<String, String>>,
    /// `None` before carcasses were compared.
    waiting: RwSignal<Option<Waiting>>,
    /// How many are drawn of the likely doubles, of the open questions, of the pairs called two, and of what was decided.
    shown: [RwSignal<usize>; 4],
}

pub(super) fn decide(desk: Desk) -> AnyView {
    let part = Decide {
        desk,
        person: RwSignal::new(String::new()),
        said: RwSignal::new(None),
        reasons: RwSignal::new(BTreeMap::new()),
        waiting: RwSignal::new(None),
        shown: std::array::from_fn(|_| RwSignal::new(AT_ONCE)),
    };
    part.keep_comparing();
    let body = move || match (desk.figures.get(), part.waiting.get()) {
        (None, _) => view! { <p>{tell("desk.carcasses.none")}</p> }.into_any(),
        (_, None) => view! { <p>{tell("decide.doubles.working")}</p> }.into_any(),
        (Some(figures), Some(waiting)) => part.lists(&figures, &waiting),
    };
    view! {
        <section data-part="decide">
            <h2>{tell("decide.head")}</h2>
            <p>{tell("decide.what")}</p>
            {no_key(desk, "decide.no_key")}
            {by_field(desk, "decide-by", part.person)}
            <div role="alert" data-decide-said="">{said_line(part.said)}</div>
            {body}
        </section>
    }
    .into_any()
}

impl Decide {
    /// Finds what waits once somebody looks at this part, in short parts, and not twice of the same figures.
    fn keep_comparing(self) {
        let turn = StoredValue::new(0_u32);
        let done = StoredValue::new(Weak::<Figures>::new());
        Effect::new(move || {
            let (figures, looked_at) = (self.desk.figures.get(), self.desk.part.get() == Part::Decide);
            turn.update_value(|turn| *turn = turn.wrapping_add(1));
            let mine = turn.get_value();
            let Some(figures) = figures.filter(|_| looked_at) else { return };
            if done.with_value(|done| are(done, &figures)) {
                return;
            }
            let cards = self.desk.hand.with_untracked(|hand| hand.cards().0);
            leptos::task::spawn_local(async move {
                let goes_on = || turn.try_get_value() == Some(mine);
                // What was tapped is drawn first.
                clock::drawn().await;
                let counted = &figures.counted;
                let folded = &counted.folded;
                let logs = winter_log::logs(folded);
                let given = Given { card: cards.today(Moment::EPOCH), ..Given::default() }.with(folded, &logs);
                let mut looking = Looking::begin(folded, &counted.bodies, given);
                if !in_parts(|| looking.step(), goes_on).await {
                    return;
                }
                let mut comparing = Comparing::begin(&looking);
                if !in_parts(|| comparing.step(), goes_on).await {
                    return;
                }
                let waiting = comparing.done();
                done.try_set_value(Arc::downgrade(&figures));
                self.waiting.try_set(Some(waiting));
            });
        });
    }

    fn lists(self, figures: &Arc<Figures>, waiting: &Waiting) -> AnyView {
        let odd = self.odd(figures);
        let Waiting { said_same, doubles, open, joined, two, decided } = waiting;
        let none = said_same.is_empty() && doubles.is_empty() && open.is_empty() && odd.is_none();
        view! {
            {none.then(|| view! { <p data-decide="none">{tell("decide.none")}</p> })}
            {self.said_same(said_same)}
            {self.likely(doubles.clone())}
            {self.open(open.clone())}
            {self.joined(joined)}
            {self.two(two.clone())}
            {self.decided(decided.clone())}
            {odd}
        }
        .into_any()
    }

    fn said_same(self, all: &[[Uuid; 2]]) -> Option<AnyView> {
        let head = tell_with("decide.said_same", &[("n", count(all.len()))]);
        let rows = all.iter().map(|[one, other]| {
            let args = [("one", short_code(*one).into()), ("other", short_code(*other).into())];
            self.pair([*one, *other], vec![tell_with("decide.said_same.why", &args)])
        });
        (!all.is_empty()).then(|| {
            view! { <section data-said-same=all.len()><h3>{head}</h3>{rows.collect_view()}</section> }.into_any()
        })
    }

    fn likely(self, all: Vec<Double>) -> Option<AnyView> {
        if all.is_empty() {
            return None;
        }
        let n = all.len();
        let [shown, ..] = self.shown;
        let rows = drawn(all, shown, move |double| self.pair([double.one, double.other], double.words().into()));
        Some(
            view! {
                <section data-doubles=n>
                    <h3>{tell_with("decide.doubles", &[("n", count(n))])}</h3>
                    <p>{tell("decide.doubles.what")}</p>
                    {rows}
                </section>
            }
            .into_any(),
        )
    }

    /// Two carcasses side by side, with why, and what can be said of them.
    fn pair(self, [one, other]: [Uuid; 2], why: Vec<String>) -> AnyView {
        let codes = [one, other].map(short_code);
        let [first, second] = codes.clone();
        let head = tell_with("decide.pair", &[("one", first.into()), ("other", second.into())]);
        let why = why.into_iter().map(|line| view! { <p>{line}</p> }).collect_view();
        let see = [one, other].into_iter().zip(codes).map(|(id, code)| see(self.desk, id, &code));
        view! {
            <article class="opened" data-pair=format!("{one} {other}")>
                <h4>{head}</h4>
                {why}
                <div class="ways">
                    {see.collect_view()}
                    <button type="button" class="act" data-act="same" on:click=move |_| self.act(&Decision::Same(one, other))>
                        {tell("decide.same")}
                    </button>
                    <button type="button" class="act" data-act="two" on:click=move |_| self.act(&Decision::Apart(one, other))>
                        {tell("decide.two")}
                    </button>
                </div>
            </article>
        }
        .into_any()
    }

    fn joined(self, all: &[[Uuid; 2]]) -> Option<AnyView> {
        let rows = all
            .iter()
            .map(|[one, other]| {
                let (one, other) = (*one, *other);
                let args = [("one", short_code(one).into()), ("other", short_code(other).into())];
                view! {
                    <li data-joined=format!("{one} {other}")>
                        <p>{tell_with("decide.joined.line", &args)}</p>
                        <button type="button" class="act" data-act="apart" on:click=move |_| self.act(&Decision::Apart(one, other))>
                            {tell("decide.apart")}
                        </button>
                    </li>
                }
            })
            .collect_view();
        let head = tell_with("decide.joined", &[("n", count(all.len()))]);
        (!all.is_empty()).then(|| view! { <section><h3>{head}</h3><ul class="rows">{rows}</ul></section> }.into_any())
    }

    fn two(self, all: Vec<[Uuid; 2]>) -> Option<AnyView> {
        let n = all.len();
        let [_, _, shown, _] = self.shown;
        let rows = drawn(all, shown, move |[one, other]| {
            let (one, other) = (*one, *other);
            let args = [("one", short_code(one).into()), ("other", short_code(other).into())];
            let act = move |_| self.act(&Decision::Same(one, other));
            view! {
                <li data-two=format!("{one} {other}")>
                    <p>{tell_with("decide.two.line", &args)}</p>
                    <button type="button" class="act" data-act="after-all" on:click=act>{tell("decide.after_all")}</button>
                </li>
            }
            .into_any()
        });
        let head = tell_with("decide.two.head", &[("n", count(n))]);
        (n > 0).then(|| view! { <section><h3>{head}</h3><ul class="rows">{rows}</ul></section> }.into_any())
    }

    fn decided(self, all: Vec<Decided>) -> Option<AnyView> {
        let n = all.len();
        let [.., shown] = self.shown;
        let rows = drawn(all, shown, move |one| {
            let (carcass, entry) = (one.carcass, one.made.entry);
            let args = [("code", short_code(carcass).into()), ("question", one.question.as_str().into())];
            let act = move |_| self.act(&Decision::Undo { carcass, entry });
            view! {
                <li data-decided=entry.to_string()>
                    <p>{tell_with("decide.question", &args)}</p>
                    <p><strong>{one.made.said.clone()}</strong> " " {by_words(&one.made)}</p>
                    <button type="button" class="act" data-act="undo" on:click=act>{tell("decide.undo")}</button>
                </li>
            }
            .into_any()
        });
        let head = tell_with("decide.decided", &[("n", count(n))]);
        (n > 0).then(|| {
            view! { <section data-decided-all=n><h3>{head}</h3><ul class="rows">{rows}</ul></section> }.into_any()
        })
    }

    fn open(self, all: Vec<Split>) -> Option<AnyView> {
        if all.is_empty() {
            return None;
        }
        let n = all.len();
        let [_, shown, ..] = self.shown;
        let rows = drawn(all, shown, move |split| self.question(split.carcass, &split.question, &split.answers));
        Some(
            view! {
                <section data-open=n>
                    <h3>{tell_with("decide.open", &[("n", count(n))])}</h3>
                    <p>{tell("decide.open.what")}</p>
                    {rows}
                </section>
            }
            .into_any(),
        )
    }

    fn question(self, carcass: Uuid, name: &str, answers: &[Said]) -> AnyView {
        let code = short_code(carcass);
        let key = format!("{carcass} {name}");
        let head = tell_with("decide.question", &[("code", code.clone().into()), ("question", name.into())]);
        let rows = answers
            .iter()
            .map(|answer| {
                let (entry, key) = (answer.entry, key.clone());
                let choose = move |_| {
                    let reason = self.reasons.with_untracked(|all| all.get(&key).cloned().unwrap_or_default());
                    self.act(&Decision::Answer { carcass, entry, reason });
                };
                view! {
                    <li data-entry=entry.to_string()>
                        <p><strong>{answer.said.clone()}</strong> " " {by_words(answer)}</p>
                        <button type="button" class="act" data-act="choose" on:click=choose>{tell("decide.choose")}</button>
                    </li>
                }
            })
            .collect_view();
        let (shown, typed, about) = (key.clone(), key, head.clone());
        view! {
            <article class="opened" data-question=about>
                <h4>{head}</h4>
                <label class="field">
                    {tell("decide.reason")}
                    <input type="text" maxlength="200" data-field="reason"
                        prop:value=move || self.reasons.with(|all| all.get(&shown).cloned().unwrap_or_default())
                        on:input=move |event| {
                            let (key, words) = (typed.clone(), event_target_value(&event));
                            self.reasons.update(|all| drop(all.insert(key, words)));
                        }/>
                </label>
                <ul class="rows">{rows}</ul>
                {see(self.desk, carcass, &code)}
            </article>
        }
        .into_any()
    }

    fn odd(self, figures: &Arc<Figures>) -> Option<AnyView> {
        let counted = &figures.counted;
        let all = &counted.odd;
        if all.is_empty() {
            return None;
        }
        let rows = self.desk.hand.with_untracked(|hand| {
            let rows = all.iter().take(AT_ONCE).map(|odd| {
                let (head, said) = odd_words(odd, &hand.keyring, &counted.bodies);
                let said = said.into_iter().map(|line| view! { <li>{line}</li> }).collect_view();
                view! { <li data-odd=""><p>{head}</p><ul>{said}</ul></li> }
            });
            rows.collect_view()
        });
        let left = all.len().saturating_sub(AT_ONCE);
        let left = (left > 0).then(|| view! { <p>{tell_with("decide.odd.more", &[("n", count(left))])}</p> });
        Some(
            view! {
                <section data-odd-all=all.len()>
                    <h3>{tell_with("decide.odd", &[("n", count(all.len()))])}</h3>
                    <p>{tell("decide.odd.what")}</p>
                    <ul class="rows">{rows}</ul>
                    {left}
                </section>
            }
            .into_any(),
        )
    }

    /// Makes it a signed decision, or says why not.
    fn act(self, decision: &Decision) {
        let said = match self.write(decision) {
            Ok(()) => {
                self.waiting.update(|waiting| {
                    if let Some(waiting) = waiting {
                        drop_decided(waiting, decision);
                    }
                });
                (true, tell("decide.done"))
            }
            Err(why) => (false, why),
        };
        self.said.set(Some(said));
    }

    fn write(self, decision: &Decision) -> Result<(), String> {
        let key = self.desk.key_now().ok_or_else(|| tell("decide.no_key"))?;
        let person = PersonCode::new(self.person.get_untracked().trim())
            .map_err(|error| tell_with("decide.no_code", &[("reason", error.to_string().into())]))?;
        let refused = |why: &dyn ToString| tell_with("decide.refused", &[("reason", why.to_string().into())]);
        let figures = self.desk.figures.get_untracked().ok_or_else(|| tell("desk.working.begin"))?;
        let mut random = Random::default();
        fill(&mut random.id).map_err(|error| refused(&error))?;
        for salt in &mut random.salts {
            fill(salt).map_err(|error| refused(&error))?;
        }
        let by = (person, now(), random);
        let done = self.desk.hand.try_update(|hand| hand.decide(&figures, decision, Some(&key), by));
        // The page is gone: nothing was written, and nothing may say so.
        done.ok_or_else(|| tell("decide.gone"))?.map_err(|error| refused(&error))
    }
}

/// Who said an answer, and when.
fn by_words(answer: &Said) -> String {
    let id = if answer.is_decision { "decide.answer.office" } else { "decide.answer.by" };
    tell_with(id, &[("who", answer.by.as_str().into()), ("when", answer_words::date_and_time(answer.at).into())])
}

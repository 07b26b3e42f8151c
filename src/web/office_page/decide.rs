//! What waits for a person, and the buttons that make it a signed decision. Nothing is joined or chosen by itself.

mod lists;

use std::collections::BTreeMap;
use std::sync::{Arc, Weak};

use leptos::prelude::*;
use uuid::Uuid;

use lists::Lists;

use super::desk::{Desk, Part, count, now, tell, tell_with};
use super::fields::see;
use super::figures::{are, in_parts};
use super::rows::{AT_ONCE, keyed};
use super::signed::{self, by_field, no_key, said_line};
use crate::guide::answer_words;
use crate::office::hand::{Decision, Figures, Random};
use crate::office::to_decide::{Comparing, Decided, Double, Looking, Said, Split, odd_words};
use crate::reading::{Given, winter_log};
use crate::record::short_code::short_code;
use crate::record::{Moment, PersonCode};
use crate::web::platform::clock;
use crate::web::platform::random::fill;

/// What the part shares.
#[derive(Clone, Copy)]
struct Decide {
    desk: Desk,
    person: RwSignal<String>,
    said: signed::Said,
    /// Reasons half typed, by question: figures that come anew must not lose them.
    reasons: RwSignal<BTreeMap<String, String>>,
    lists: Lists,
    /// Whether carcasses were compared.
    is_found: RwSignal<bool>,
}

pub(super) fn decide(desk: Desk) -> AnyView {
    let part = Decide {
        desk,
        person: RwSignal::new(String::new()),
        said: RwSignal::new(None),
        reasons: RwSignal::new(BTreeMap::new()),
        lists: Lists::new(),
        is_found: RwSignal::new(false),
    };
    part.keep_comparing();
    // Which of these it is, and not each time anew what stands in the lists.
    let stage = Memo::new(move |_| (desk.figures.with(Option::is_some), part.is_found.get()));
    let body = move || match stage.get() {
        (false, _) => view! { <p>{tell("desk.carcasses.none")}</p> }.into_any(),
        (_, false) => view! { <p>{tell("decide.doubles.working")}</p> }.into_any(),
        (true, true) => part.drawn(),
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
                self.lists.put(waiting);
                self.is_found.try_set(true);
            });
        });
    }

    fn drawn(self) -> AnyView {
        let Lists { said_same, doubles, open, .. } = self.lists;
        let none = Memo::new(move |_| {
            let odd = self.desk.figures.with(|figures| figures.as_ref().is_some_and(|one| !one.counted.odd.is_empty()));
            !odd && said_same.with(Vec::is_empty) && doubles.with(Vec::is_empty) && open.with(Vec::is_empty)
        });
        let odd = move || self.desk.figures.get().and_then(|figures| self.odd(&figures));
        view! {
            {move || none.get().then(|| view! { <p data-decide="none">{tell("decide.none")}</p> })}
            {self.said_same()}
            {self.likely()}
            {self.open()}
            {self.joined()}
            {self.two()}
            {self.decided()}
            {odd}
        }
        .into_any()
    }

    fn said_same(self) -> AnyView {
        let row = move |[one, other]: [Uuid; 2]| {
            let args = [("one", short_code(one).into()), ("other", short_code(other).into())];
            self.pair([one, other], vec![tell_with("decide.said_same.why", &args)])
        };
        let all = self.lists.said_same;
        section(all, ("said_same", "decide.said_same"), None, move |shown| plain(keyed(all, shown, |pair| *pair, row)))
    }

    fn likely(self) -> AnyView {
        let key = |double: &Double| (double.one, double.other, double.words());
        let row = move |double: Double| self.pair([double.one, double.other], double.words().into());
        let all = self.lists.doubles;
        let what = Some("decide.doubles.what");
        section(all, ("doubles", "decide.doubles"), what, move |shown| plain(keyed(all, shown, key, row)))
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

    fn joined(self) -> AnyView {
        let row = move |[one, other]: [Uuid; 2]| {
            let args = [("one", short_code(one).into()), ("other", short_code(other).into())];
            let act = move |_| self.act(&Decision::Apart(one, other));
            view! {
                <li data-joined=format!("{one} {other}")>
                    <p>{tell_with("decide.joined.line", &args)}</p>
                    <button type="button" class="act" data-act="apart" on:click=act>{tell("decide.apart")}</button>
                </li>
            }
            .into_any()
        };
        let all = self.lists.joined;
        section(all, ("joined", "decide.joined"), None, move |shown| in_rows(keyed(all, shown, |pair| *pair, row)))
    }

    fn two(self) -> AnyView {
        let row = move |[one, other]: [Uuid; 2]| {
            let args = [("one", short_code(one).into()), ("other", short_code(other).into())];
            let act = move |_| self.act(&Decision::Same(one, other));
            view! {
                <li data-two=format!("{one} {other}")>
                    <p>{tell_with("decide.two.line", &args)}</p>
                    <button type="button" class="act" data-act="after-all" on:click=act>{tell("decide.after_all")}</button>
                </li>
            }
            .into_any()
        };
        let all = self.lists.two;
        section(all, ("two", "decide.two.head"), None, move |shown| in_rows(keyed(all, shown, |pair| *pair, row)))
    }

    fn decided(self) -> AnyView {
        let row = move |one: Decided| {
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
        };
        let all = self.lists.decided;
        let key = |one: &Decided| one.made.entry;
        section(all, ("decided", "decide.decided"), None, move |shown| in_rows(keyed(all, shown, key, row)))
    }

    fn open(self) -> AnyView {
        let key = |split: &Split| {
            let entries: Vec<_> = split.answers.iter().map(|answer| answer.entry).collect();
            (split.carcass, split.question.clone(), entries)
        };
        let row = move |split: Split| self.question(split.carcass, &split.question, &split.answers);
        let all = self.lists.open;
        let what = Some("decide.open.what");
        section(all, ("open", "decide.open"), what, move |shown| plain(keyed(all, shown, key, row)))
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
                self.lists.drop_decided(decision);
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

/// A list with its head, where there is anything in it. How much of it is drawn stays while that is so.
fn section<T: Send + Sync + 'static>(
    all: RwSignal<Vec<T>>,
    (name, head): (&'static str, &'static str),
    what: Option<&'static str>,
    rows: impl Fn(RwSignal<usize>) -> AnyView + Send + 'static,
) -> AnyView {
    let any = Memo::new(move |_| all.with(|all| !all.is_empty()));
    let drawn = move || {
        any.get().then(|| {
            view! {
                <section data-waiting=name>
                    <h3>{move || tell_with(head, &[("n", count(all.with(Vec::len)))])}</h3>
                    {what.map(|what| view! { <p>{tell(what)}</p> })}
                    {rows(RwSignal::new(AT_ONCE))}
                </section>
            }
        })
    };
    view! { {drawn} }.into_any()
}

fn in_rows([rows, more]: [AnyView; 2]) -> AnyView {
    view! { <ul class="rows">{rows}</ul> {more} }.into_any()
}

fn plain([rows, more]: [AnyView; 2]) -> AnyView {
    view! { {rows} {more} }.into_any()
}

/// Who said an answer, and when.
fn by_words(answer: &Said) -> String {
    let id = if answer.is_decision { "decide.answer.office" } else { "decide.answer.by" };
    tell_with(id, &[("who", answer.by.as_str().into()), ("when", answer_words::date_and_time(answer.at).into())])
}

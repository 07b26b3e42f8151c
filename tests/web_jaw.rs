//! The drawn lower jaw in a real browser: taps, keys, names, and that the next question waits for what is saved.
//!
//! Sides: held with the tongue side to the eye, the left half has its front to the right (plain geometry).
//! Crew numbers and zoological names of the cheek teeth: the table of tooth names in the age keys of the
//! agencies (first premolar P2 to third molar M3).
#![cfg(all(target_arch = "wasm32", feature = "web"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::collections::BTreeMap;

use leptos::mount::mount_to;
use leptos::prelude::*;
use marrowbook::record::{Answer, Side, Site, Tooth, find};
use marrowbook::web::drawings::{JawActs, JawFocus, JawKey, ToothQuestion, jaw_exam};
use marrowbook::words::Language;
use wasm_bindgen::prelude::*;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};
use web_sys::{Element, HtmlElement};

wasm_bindgen_test_configure!(run_in_browser);

#[wasm_bindgen(inline_js = r"
export function press(on, key) { on.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true })); }
")]
extern "C" {
    fn press(on: &Element, key: &str);
}

type Written = RwSignal<BTreeMap<(&'static str, Tooth), &'static str>>;

/// A jaw in an element of its own, with what was written through it.
struct Jaw {
    place: HtmlElement,
    written: Written,
    no_answer: RwSignal<Vec<JawKey>>,
    done: RwSignal<bool>,
}

/// The guide's rule in small: wear is asked of molars in wear.
fn asked(side: Side, written: Written) -> Vec<ToothQuestion> {
    let written = written.get();
    let mut keys: Vec<_> = Tooth::CHEEK.iter().map(|t| ("tooth_state", *t)).collect();
    for tooth in Tooth::MOLARS.into_iter().filter(|t| written.get(&("tooth_state", *t)) == Some(&"in_wear")) {
        keys.extend([("dentine", tooth), ("crest", tooth)]);
    }
    keys.into_iter()
        .map(|(finding, tooth)| ToothQuestion {
            finding,
            site: Site::tooth(side, tooth),
            name: finding.to_owned(),
            options: find(finding).unwrap().options().iter().map(|o| (*o, (*o).to_owned())).collect(),
            given: written.get(&(finding, tooth)).map(|code| (Answer::choice(code), (*code).to_owned())),
        })
        .collect()
}

/// `saves`: whether an answer is written at once; without it nothing is ever saved.
fn jaw(side: Side, saves: bool) -> Jaw {
    let place: HtmlElement = document().create_element("div").unwrap().unchecked_into();
    document().body().unwrap().append_child(&place).unwrap();
    let (written, no_answer, done) = (RwSignal::new(BTreeMap::new()), RwSignal::new(Vec::new()), RwSignal::new(false));
    let questions = Signal::derive(move || asked(side, written));
    let acts = JawActs {
        answer: Callback::new(move |((finding, site), code): (JawKey, &'static str)| {
            if saves {
                written.update(|w| {
                    w.insert((finding, site.tooth.unwrap()), code);
                });
            }
        }),
        no_answer: Callback::new(move |keys| no_answer.set(keys)),
        take_back: Callback::new(move |(finding, site): JawKey| {
            written.update(|w| {
                w.remove(&(finding, site.tooth.unwrap()));
            });
        }),
        done: Callback::new(move |()| done.set(true)),
        is_meant: Callback::new(|_| true),
    };
    let focus = RwSignal::new(JawFocus::Next);
    mount_to(place.clone(), move || jaw_exam(side, questions, focus, acts, Language::English)).forget();
    Jaw { place, written, no_answer, done }
}

impl Jaw {
    fn find(&self, what: &str) -> Option<HtmlElement> {
        self.place.query_selector(what).unwrap().map(JsCast::unchecked_into)
    }

    async fn tap(&self, what: &str) {
        self.find(what).unwrap_or_else(|| panic!("no {what} on {}", self.place.inner_html())).click();
        leptos::task::tick().await;
    }

    /// The finding and tooth that is asked about.
    fn asks(&self) -> Option<(String, String)> {
        let panel = self.find(".jaw-panel")?;
        Some((panel.get_attribute("data-finding")?, panel.get_attribute("data-tooth")?))
    }

    fn is_asking(&self, finding: &str, tooth: &str) -> bool {
        self.asks() == Some((finding.to_owned(), tooth.to_owned()))
    }

    fn teeth(&self) -> Vec<String> {
        let all = self.place.query_selector_all("button.tooth").unwrap();
        (0..all.length())
            .map(|n| all.item(n).unwrap().unchecked_into::<HtmlElement>().get_attribute("data-tooth").unwrap())
            .collect()
    }

    async fn key(&self, key: &str) -> String {
        press(&document().active_element().unwrap(), key);
        leptos::task::tick().await;
        document().active_element().unwrap().get_attribute("data-tooth").unwrap_or_default()
    }
}

impl Drop for Jaw {
    fn drop(&mut self) {
        self.place.remove();
    }
}

#[wasm_bindgen_test]
async fn teeth_lie_on_the_screen_as_in_the_hand() {
    assert_eq!(jaw(Side::Left, true).teeth(), ["M3", "M2", "M1", "P4", "P3", "P2"]);
    assert_eq!(jaw(Side::Right, true).teeth(), ["P2", "P3", "P4", "M1", "M2", "M3"]);
}

#[wasm_bindgen_test]
async fn a_molar_in_wear_is_asked_to_the_end_before_the_row_goes_on() {
    let jaw = jaw(Side::Left, true);
    assert!(jaw.is_asking("tooth_state", "P2"));
    jaw.tap("[data-tooth=M1].tooth").await;
    assert!(jaw.is_asking("tooth_state", "M1"));
    jaw.tap("[data-tile=in_wear]").await;
    assert!(jaw.is_asking("dentine", "M1"));
    jaw.tap("[data-tile=about_equal]").await;
    assert!(jaw.is_asking("crest", "M1"));
    jaw.tap("[data-tile=blunt]").await;
    assert!(jaw.is_asking("tooth_state", "P2"));
    let label = jaw.find("[data-tooth=M1].tooth").unwrap().get_attribute("aria-label").unwrap();
    assert_eq!(label, "4 M1, fourth cheek tooth: in_wear, about_equal, blunt");
}

#[wasm_bindgen_test]
async fn nothing_goes_on_before_the_answer_is_saved() {
    let jaw = jaw(Side::Right, false);
    jaw.tap("[data-tile=milk]").await;
    assert!(jaw.is_asking("tooth_state", "P2"));
    assert!(jaw.find("[data-tooth=P2].tooth").unwrap().get_attribute("aria-label").unwrap().contains("not asked yet"));
}

#[wasm_bindgen_test]
async fn a_whole_row_ends_in_a_look_over_and_each_answer_can_be_taken_back() {
    let jaw = jaw(Side::Left, true);
    for _ in Tooth::CHEEK {
        jaw.tap("[data-tile=up_unworn]").await;
    }
    assert!(jaw.find("[data-whole]").is_some());
    jaw.tap("[data-tooth=P4].tooth").await;
    assert!(jaw.find("[data-written=P4]").is_some());
    jaw.tap("[data-act=take-back]").await;
    assert!(jaw.is_asking("tooth_state", "P4"));
    jaw.tap("[data-tile=more]").await;
    jaw.tap("[data-tile=milk_shed]").await;
    assert_eq!(jaw.written.get_untracked().get(&("tooth_state", Tooth::P4)), Some(&"milk_shed"));
    jaw.tap("[data-tile=next]").await;
    assert!(jaw.done.get_untracked());
}

#[wasm_bindgen_test]
async fn no_answer_is_for_one_question_or_before_the_first_for_the_half() {
    let jaw = jaw(Side::Left, true);
    jaw.tap("[data-tile=no-answer]").await;
    assert_eq!(jaw.no_answer.get_untracked(), [("tooth_state", Site::tooth(Side::Left, Tooth::P2))]);
    jaw.tap("[data-tile=no-answer-jaw]").await;
    assert_eq!(jaw.no_answer.get_untracked().len(), 6);
    jaw.tap("[data-tile=milk]").await;
    assert!(jaw.find("[data-tile=no-answer-jaw]").is_none(), "something is written: no sweep over the rest");
}

#[wasm_bindgen_test]
async fn arrow_keys_walk_along_the_row_as_it_lies() {
    let jaw = jaw(Side::Left, true);
    jaw.find("[data-tooth=M1].tooth").unwrap().focus().unwrap();
    assert_eq!(jaw.key("ArrowRight").await, "P4");
    assert_eq!(jaw.key("ArrowLeft").await, "M1");
    assert_eq!(jaw.key("End").await, "P2");
    assert_eq!(jaw.key("ArrowRight").await, "P2", "the end of the row holds");
    assert_eq!(jaw.key("Home").await, "M3");
}

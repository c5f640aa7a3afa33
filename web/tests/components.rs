//! Components in a real browser: `cargo xtask test --only web`.
#![cfg(target_arch = "wasm32")]
#![allow(clippy::expect_used, reason = "a test may stop at the first surprise")]

use coilwright_web::host::browser::Browser;
use coilwright_web::shell::app::App;
use coilwright_web::shell::drafts::{load, save};
use coilwright_web::shell::put;
use std::rc::Rc;
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::Duration;
use wasm_bindgen::JsCast;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};
use web_sys::{Element, Event, EventInit, HtmlElement, HtmlInputElement, HtmlSelectElement};
use yew::platform::time::sleep;

wasm_bindgen_test_configure!(run_in_browser);

/// Pages have names of their own, so that each begins with nothing kept.
static NEXT: AtomicU32 = AtomicU32::new(0);

/// A page of its own in the document; it leaves when dropped.
struct Page {
    place: Element,
    /// Its ids and drafts go by it.
    name: String,
    app: Option<yew::AppHandle<App>>,
}

impl Page {
    /// Opens with a link, on a device that has kept nothing.
    async fn open(fragment: &str) -> Self {
        let document = web_sys::window().and_then(|window| window.document());
        let document = document.expect("a browser has a document");
        let place = document.create_element("div").expect("an element");
        let body = document.body().expect("a document has a body");
        body.append_child(&place).expect("the body takes an element");
        let name = format!("p{}", NEXT.fetch_add(1, Ordering::Relaxed));
        let host = Browser::guest(place.clone(), &name, fragment).expect("a window");
        let app = put(place.clone(), Rc::new(host));
        let page = Self { app: Some(app), place, name };
        page.settle().await;
        page
    }

    /// Until an answer has come; small ones take a slice or two, longer ones on a busy machine.
    async fn settle(&self) {
        // A listing starts in the task after the one that changed the question.
        sleep(Duration::from_millis(60)).await;
        for _ in 0..500 {
            let lists = self.count("[aria-busy=true], .work progress") > 0;
            let shows = self.count("main :is(.answer, .note, .trouble, .to-field, #room)") > 0;
            let earlier = self.count(".answer-stale .answer") > 0 && self.count(".note-stale") == 0;
            if shows && !lists && !earlier {
                return;
            }
            sleep(Duration::from_millis(20)).await;
        }
    }

    fn find(&self, selector: &str) -> Option<Element> {
        // Ids are those of this page.
        let selector = selector.replace('#', &format!("#{}-", self.name));
        self.place.query_selector(&selector).expect("a selector")
    }

    fn get(&self, selector: &str) -> Element {
        self.find(selector).unwrap_or_else(|| unreachable!("no {selector} on the page"))
    }

    fn count(&self, selector: &str) -> u32 {
        self.place.query_selector_all(selector).expect("a selector").length()
    }

    fn text(&self, selector: &str) -> String {
        // Spaces that keep a unit on its number's line are spaces.
        self.get(selector).text_content().unwrap_or_default().replace('\u{a0}', " ")
    }

    fn input(&self, id: &str) -> HtmlInputElement {
        self.get(&format!("#{id}")).dyn_into().expect("an input")
    }

    async fn type_into(&self, id: &str, text: &str) {
        let input = self.input(id);
        input.set_value(text);
        tell(&input, "input");
        self.settle().await;
    }

    /// Presses the button or the way to a room that says this.
    async fn press_called(&self, words: &str) {
        let buttons = self.place.query_selector_all("button, a[href]").expect("a selector");
        let mut buttons = (0..buttons.length()).filter_map(|i| buttons.get(i));
        let found = buttons.find(|button| button.text_content().as_deref() == Some(words));
        let found = found.unwrap_or_else(|| unreachable!("no button says {words}"));
        found.dyn_into::<HtmlElement>().expect("an element").click();
        self.settle().await;
    }

    async fn press(&self, selector: &str) {
        self.get(selector).dyn_into::<HtmlElement>().expect("an element").click();
        self.settle().await;
    }
}

impl Drop for Page {
    fn drop(&mut self) {
        if let Some(app) = self.app.take() {
            app.destroy();
        }
        self.place.remove();
    }
}

fn tell(element: &Element, event: &str) {
    let init = EventInit::new();
    init.set_bubbles(true);
    let event = Event::new_with_event_init_dict(event, &init).expect("an event");
    element.dispatch_event(&event).expect("it is dispatched");
}

const TWO_DUAL: &str = "#v=1&drivers=2~2~2~500&amplifier=1~1&channel=1~4:420~2:760~1:1200";

#[wasm_bindgen_test]
async fn the_example_is_marked_and_answered() {
    let page = Page::open("").await;
    assert_eq!(page.count("h1"), 1);
    assert_eq!(page.count(".example"), 1);
    // Worked by hand: three dual 4 Ω drivers make 24, 6 (twice), 8/3 (twice) and 2/3 Ω.
    assert!(page.text(".count b").starts_with("6 of "));
    assert_eq!((page.count(".entry"), page.count(".rungs input")), (6, 4));
}

#[wasm_bindgen_test]
async fn the_list_has_an_entry_for_each_configuration_and_says_how_many() {
    let page = Page::open(TWO_DUAL).await;
    assert_eq!(page.text(".count b"), "4 of 16");
    assert_eq!((page.count(".entry"), page.count(".rungs input")), (4, 3));
    assert_eq!(page.text(".rung-low .verdict"), "✕too low");
    assert!(page.text(".entry").contains("fits"));
    page.press(".filters .tick:last-of-type input").await;
    assert_eq!(page.text(".count b"), "6 of 16");
    page.press(".filters .tick input").await;
    assert_eq!(page.text(".count b"), "16 of 16");
    assert!(page.count(".entry-uneven") > 0);
    // One of each kind stands for those that are like it.
    let kinds = page.count(".entry");
    assert!(page.count(".entry-alike") > 0 && kinds < 16, "{kinds} kinds");
    page.press(".entry-alike").await;
    assert!(page.count(".entry") > 1 && page.count(".entry-alike") == 0);
}

#[wasm_bindgen_test]
async fn a_rung_lists_what_is_at_its_load_and_all_loads_brings_all_back() {
    let page = Page::open(TWO_DUAL).await;
    page.press(".rungs li:nth-child(2) input").await;
    assert_eq!((page.count(".entry"), page.count(".at-load")), (2, 1));
    assert_eq!(page.text(".at-load b"), "2 Ω");
    assert_eq!(page.count(".rungs input:checked"), 1);
    page.press(".rung-all input").await;
    assert_eq!((page.count(".entry"), page.count(".at-load")), (4, 3));
}

#[wasm_bindgen_test]
async fn a_usual_value_is_none_until_one_is_chosen_and_none_again_after() {
    let page = Page::open(TWO_DUAL).await;
    let usual: HtmlSelectElement = page.get(".usual").dyn_into().expect("a select");
    for value in ["16", "0.7", "16"] {
        assert_eq!(usual.value(), "");
        usual.set_value(value);
        tell(&usual, "change");
        page.settle().await;
        assert_eq!(page.input("drivers-0-ohms").value(), value);
    }
}

#[wasm_bindgen_test]
async fn typing_keeps_the_text_as_it_is() {
    let page = Page::open(TWO_DUAL).await;
    for text in ["1,", "1,4 Ω", " 4 ohm", "four"] {
        page.type_into("drivers-0-ohms", text).await;
        assert_eq!(page.input("drivers-0-ohms").value(), text);
    }
}

#[wasm_bindgen_test]
async fn what_cannot_be_read_is_told_beside_its_field_and_the_answer_stays() {
    let page = Page::open(TWO_DUAL).await;
    page.type_into("drivers-0-ohms", "four").await;
    let input = page.input("drivers-0-ohms");
    assert_eq!(input.get_attribute("aria-invalid").as_deref(), Some("true"));
    let described = input.get_attribute("aria-describedby").unwrap_or_default();
    let first = described.split(' ').next().unwrap_or_default().to_string();
    let first = first.replace(&format!("{}-", page.name), "");
    assert_eq!(first, "drivers-0-ohms-trouble");
    assert!(page.text(&format!("#{first}")).contains("cannot be read as a number"));
    assert_eq!(page.count(".entry"), 4, "the last good answer");
    assert_eq!(page.count(".note-stale"), 1);
    page.type_into("drivers-0-ohms", "2").await;
    assert_eq!(page.count(".note-stale"), 0);
    assert_eq!(page.count(".trouble"), 0);
}

#[wasm_bindgen_test]
async fn every_field_has_a_name() {
    let link = "#v=1&drivers=2~2~2~500&drivers=1~1~4~&amplifier=1~4~unlike&channel=1~4:420\
                &bridge=1~2~2";
    let page = Page::open(link).await;
    let fields = page.place.query_selector_all("input, select").expect("a selector");
    assert!(fields.length() > 20);
    for i in 0..fields.length() {
        let field: Element = fields.get(i).expect("in range").dyn_into().expect("an element");
        let id = field.id();
        let label = page.find(&format!("label[for='{id}']"));
        let around = field.closest("label").expect("a selector");
        let name = label.or(around).and_then(|label| label.text_content());
        let name = field.get_attribute("aria-label").or(name);
        assert!(name.is_some_and(|name| !name.trim().is_empty()), "{}", field.outer_html());
    }
}

#[wasm_bindgen_test]
async fn a_group_comes_goes_and_comes_back() {
    let page = Page::open(TWO_DUAL).await;
    page.press(".fold-in > .add").await;
    page.type_into("drivers-1-ohms", "8").await;
    let coils: HtmlSelectElement = page.get("#drivers-1-coils").dyn_into().expect("a select");
    coils.set_value("4");
    tell(&coils, "change");
    page.settle().await;
    assert_eq!(page.count(".ask > fieldset"), 3);
    page.press(".ask > fieldset:nth-of-type(2) .part-remove").await;
    assert_eq!(page.count(".ask > fieldset"), 2);
    page.press("#undo").await;
    assert_eq!(page.input("drivers-1-ohms").value(), "8");
    let coils: HtmlSelectElement = page.get("#drivers-1-coils").dyn_into().expect("a select");
    assert_eq!(coils.value(), "4");
}

#[wasm_bindgen_test]
async fn choosing_shows_why_and_starting_empty_asks_for_what_is_needed() {
    let page = Page::open(TWO_DUAL).await;
    page.press(".rung-low input").await;
    page.press(".entry .entry-main").await;
    assert_eq!(page.text("#chosen"), "Chosen");
    assert!(page.text(".because").contains("is below the least load of 1 Ω"));
    assert!(page.text(".cautions").contains("least load"));
    page.press_called(coilwright_words::english::page::START_EMPTY).await;
    assert_eq!(page.input("drivers-0-ohms").value(), "");
    assert_eq!(page.count(".troubles-missing .to-field"), 2);
    assert_eq!(page.count(".trouble"), 0, "nothing is wrong yet");
}

/// Four drivers on four channels with two bridges: the loads and the way over what is
/// listed, by load as by rank.
#[wasm_bindgen_test]
async fn the_list_tells_every_way_whatever_its_order() {
    let page = Page::open(
        "#v=1&drivers=4~1~4~300&amplifier=1~4&channel=2~4:150~2:250\
         &bridge=1~2~4~4:500&bridge=3~4~4~4:500",
    )
    .await;
    assert_eq!(page.text(".count b"), "13 of 32");
    assert_eq!(page.count(".entry"), 13);
    for order in ["load", "best", "power", "runs"] {
        let select: HtmlSelectElement = page.get("#order").dyn_into().expect("a select");
        select.set_value(order);
        tell(&select, "change");
        page.settle().await;
        // Worked by hand: seven of them use several outputs. Outputs that stand alike are
        // told once, with the network of each.
        assert_eq!((page.count(".entry"), page.count(".entry .placed")), (13, 7), "{order}");
        assert!(page.text(".entries").contains("8 Ω, 250 W"), "{order}");
        let over = page.place.query_selector_all(".entries .way").expect("a selector");
        let mut ways = std::collections::BTreeSet::new();
        for i in 0..over.length() {
            ways.insert(over.get(i).and_then(|way| way.text_content()));
        }
        assert_eq!(ways.len(), 3, "{order}: {ways:?}");
    }
}

#[wasm_bindgen_test]
async fn two_pairs_of_terminals_are_explained() {
    let page = Page::open("#v=1&drivers=2~1~2~300&amplifier=1~1&channel=1~2:500~tied").await;
    let tied = coilwright_words::english::ways::TIED;
    assert!(page.text(".rig, main").contains(tied), "{}", page.text("main"));
}

#[wasm_bindgen_test]
async fn a_crowded_list_shows_a_page_at_a_time() {
    let page = Page::open("#v=1&drivers=4~2~4~300&joined_only=0&even_only=0").await;
    page.settle().await;
    for _ in 0..50 {
        if page.count(".entry") > 0 {
            break;
        }
        page.settle().await;
    }
    assert_eq!(page.count(".entry"), 25);
    page.press(".pager button:last-child").await;
    assert!(page.text(".pager span").starts_with("26 to 50"));
    assert_eq!(page.count(".entry"), 25);
}

#[wasm_bindgen_test]
fn a_draft_is_kept_in_the_browsers_storage() {
    let window = web_sys::window().expect("a window");
    let tab = window.session_storage().ok().flatten().expect("storage");
    assert_eq!(save(&tab, "coilwright.test", "v=1&one"), Ok(()));
    assert_eq!(save(&tab, "coilwright.test", "v=1&two"), Ok(()));
    assert_eq!(load(&tab, "coilwright.test").as_deref(), Some("v=1&two"));
}

/// Whoever embeds two of them has two pages: elements, drafts and typing of one are not the
/// other's.
#[wasm_bindgen_test]
async fn two_pages_live_in_one_document() {
    let (one, other) = (Page::open(TWO_DUAL).await, Page::open("#v=1&drivers=3~1~8~").await);
    let mut ids = Vec::new();
    for page in [&one, &other] {
        let all = page.place.query_selector_all("[id]").expect("a selector");
        for element in (0..all.length()).filter_map(|i| all.get(i)) {
            let element: Element = element.dyn_into().expect("an element");
            ids.push(element.id());
        }
    }
    let count = ids.len();
    ids.sort_unstable();
    ids.dedup();
    assert!(count > 40 && ids.len() == count, "{} of {count} ids are its own", ids.len());
    // A name under a field is that of the field above it.
    for page in [&one, &other] {
        let labels = page.place.query_selector_all("label[for]").expect("a selector");
        for label in (0..labels.length()).filter_map(|i| labels.get(i)) {
            let label: HtmlElement = label.dyn_into().expect("an element");
            let id = label.get_attribute("for").unwrap_or_default();
            assert!(
                page.place.query_selector(&format!("[id='{id}']")).is_ok_and(|of| of.is_some()),
                "{id}"
            );
        }
    }
    one.type_into("drivers-0-count", "4").await;
    assert_eq!(other.input("drivers-0-count").value(), "3");
    other.type_into("drivers-0-count", "5").await;
    assert_eq!(one.input("drivers-0-count").value(), "4");
    let tab = web_sys::window().and_then(|window| window.session_storage().ok().flatten());
    let tab = tab.expect("a storage");
    for (page, count) in [(&one, "4"), (&other, "5")] {
        let draft = load(&tab, &format!("{}-coilwright.draft", page.name));
        assert!(draft.is_some_and(|draft| draft.contains(&format!("drivers={count}~"))));
    }
}

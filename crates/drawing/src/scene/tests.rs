use super::check::{enters, problems};
use super::*;
use proptest::prelude::*;
use roxmltree::{Document, Node};

fn scene(marks: Vec<Mark>) -> Scene {
    Scene { width: 100, height: 50, marks, ..Scene::new() }
}

fn text(at: Point, size: i32, text: &str) -> Mark {
    Mark::Text(Role::CoilLabel, at, Anchor::Middle, size, text.to_owned())
}

/// Reviewed by eye; XML 1.0 (section 2.4) names the five letters that have to be escaped.
#[test]
fn a_picture_is_one_element_with_its_size_and_name() {
    let marks = vec![
        Mark::Rect(Role::Output, (1, 2), 3, 4, 6),
        Mark::Line(Role::Wire, (0, 5), (9, 5)),
        Mark::Line(Role::Wire, (9, 5), (9, -5)),
        Mark::Line(Role::Wire, (9, 5), (0, 0)),
        Mark::Shape(Role::Dot, (9, 5), "h1v1z"),
        text((20, 20), 13, "a<b>&\"'"),
    ];
    assert_eq!(
        scene(marks).svg("circuit", Some("\"1a\" & <2a>")),
        concat!(
            r#"<svg class="circuit" role="img" aria-label="&quot;1a&quot; &amp; &lt;2a&gt;" "#,
            r#"viewBox="0 0 100 50" width="6.2500rem" height="3.1250rem">"#,
            r#"<rect class="d-output" x="1" y="2" width="3" height="4" rx="6"/>"#,
            r#"<path class="d-wire" d="M0 5H9M9 5V-5M9 5L0 0"/>"#,
            r#"<path class="d-dot" d="M9 5h1v1z"/>"#,
            r#"<text class="d-coil-label" x="20" y="20" font-size="13" text-anchor="middle">"#,
            r#"a&lt;b&gt;&amp;&quot;&#39;</text></svg>"#,
        )
    );
}

#[test]
fn a_picture_without_a_name_is_hidden_from_readers() {
    assert_eq!(
        scene(Vec::new()).svg("thumb", None),
        r#"<svg class="thumb" aria-hidden="true" viewBox="0 0 100 50" width="6.2500rem" height="3.1250rem"></svg>"#
    );
}

#[test]
fn parts_side_by_side_are_one_picture_each_at_its_place() {
    let whole = scene(vec![text((20, 20), 13, "1a"), text((20, 60), 13, "2a")]);
    let part = |top, height| Scene { top, height, ..whole.clone() };
    let svg = Scene::beside(&[part(0, 30), part(30, 40)], 8, "wired", "As wired");
    let page = Document::parse(&svg).unwrap();
    let outer = page.root_element();
    assert_eq!(outer.attribute("viewBox"), Some("0 0 208 40"));
    assert_eq!(
        (outer.attribute("role"), outer.attribute("aria-label")),
        (Some("img"), Some("As wired"))
    );
    let places = outer.children().map(|part| [part.attribute("x"), part.attribute("viewBox")]);
    let due = [[Some("0"), Some("0 0 100 30")], [Some("108"), Some("0 30 100 40")]];
    assert_eq!(places.collect::<Vec<_>>(), due);
}

#[test]
fn finer_units_keep_the_size_on_the_page() {
    let fine = Scene { fine: 4, ..scene(Vec::new()) };
    let svg = fine.svg("thumb", None);
    assert!(svg.contains(r#"viewBox="0 0 100 50" width="1.5625rem" height="0.8125rem""#), "{svg}");
}

/// The law that all other tests rest on must itself be able to fail.
#[test]
fn what_breaks_a_picture_is_found() {
    let good = vec![text((50, 20), 12, "1a"), text((50, 40), 12, "1b")];
    assert_eq!(problems(&scene(good)), Vec::<String>::new());
    for (marks, found) in [
        (vec![text((50, 20), 12, "1a"), text((52, 24), 12, "1b")], "lies on"),
        (vec![text((50, 20), 11, "1a")], "too small"),
        (vec![text((97, 20), 12, "1a")], "outside"),
        (vec![Mark::Line(Role::Wire, (0, 0), (101, 0))], "outside"),
        (vec![Mark::Rect(Role::Bar, (5, 5), -1, 3, 0)], "inside out"),
    ] {
        let wrong = problems(&scene(marks));
        assert!(wrong.len() == 1 && wrong[0].contains(found), "{found}: {wrong:?}");
    }
    assert!(enters(((0, 0), (10, 10)), (4, 4, 6, 6)));
    assert!(!enters(((0, 0), (10, 10)), (6, 0, 9, 4)));
    assert!(!enters(((0, 4), (10, 4)), (4, 4, 6, 6)));
}

/// As XML can hold it: what it has no letter for is replaced, and a line has no other lines.
fn held(text: &str) -> String {
    let letter = |c| match c {
        '\t' | '\n' | '\r' => ' ',
        '\0'..'\u{20}' | '\u{fffe}' | '\u{ffff}' => '\u{fffd}',
        other => other,
    };
    text.chars().map(letter).collect()
}

fn written(svg: &str) -> Document<'_> {
    Document::parse(svg).unwrap_or_else(|error| panic!("{error}: {svg}"))
}

fn texts_of(of: Node<'_, '_>) -> Vec<String> {
    let texts = of.descendants().filter(Node::is_text);
    texts.map(|text| text.text().unwrap_or_default().to_owned()).filter(|t| !t.is_empty()).collect()
}

/// Any letter, with those that markup is made of more often than others.
fn any_label() -> impl Strategy<Value = String> {
    let letter = prop_oneof![
        any::<char>(),
        prop::sample::select(
            "<>&\"'/]!-=ax;#\0\u{1}\t\n\u{b}\u{7f}\u{85}\u{202e}\u{2028}\u{fffe}\u{ffff}\u{1f50a}"
                .chars()
                .collect::<Vec<_>>()
        ),
    ];
    prop_oneof![
        prop::collection::vec(letter, 0..40).prop_map(|all| all.into_iter().collect()),
        Just("<img src=x onerror=alert(1)>\"'&]]>".to_owned()),
        Just("</text><script>alert(1)</script>".to_owned()),
        Just("\"/><g onload=\"alert(1)".to_owned()),
    ]
}

proptest! {
    /// XML 1.0 by a parser that shares no code with the writer.
    #[test]
    fn any_label_is_text_in_a_well_formed_picture(
        label in any_label(), shown in any_label(), full in any_label(), title in any_label(),
    ) {
        let picture = scene(vec![
            text((20, 20), 13, &label),
            Mark::Name((20, 40), Anchor::Middle, 12, [shown.clone(), full.clone()]),
        ]);
        let mut due = vec![label.clone()];
        if shown != full {
            due.push(full.clone());
        }
        due.push(shown.clone());
        let due: Vec<String> = due.iter().map(|text| held(text)).filter(|t| !t.is_empty()).collect();
        let on_page = picture.svg("wired", Some(&title));
        let page = written(&on_page);
        let root = page.root_element();
        prop_assert_eq!(root.attribute("aria-label"), Some(&*held(&title)));
        prop_assert_eq!(texts_of(root), due.clone());
        let file = picture.file(|_, _| "fill:#000", &title, &shown);
        let file = written(&file);
        let mut about = file.root_element().children().filter(Node::is_element);
        for (of, text) in [("aria-labelledby", &title), ("aria-describedby", &shown)] {
            let element = about.next().unwrap();
            prop_assert_eq!(element.attribute("id"), file.root_element().attribute(of));
            prop_assert_eq!(element.text().unwrap_or_default(), held(text));
        }
        let all = texts_of(file.root_element());
        prop_assert!(all.ends_with(&due), "{:?}", all);
        // Nothing of a label became an element.
        for node in page.descendants().chain(file.descendants()).filter(Node::is_element) {
            let ours = "svg text title desc rect".split(' ').any(|name| node.has_tag_name(name));
            prop_assert!(ours, "{:?}", node.tag_name());
        }
    }
}

/// What is set into a page of somebody else's speaks of itself alone.
#[test]
fn two_files_in_one_page_have_no_identifier_and_no_style_in_common() {
    let files: Vec<String> = [("a", "b", 20), ("b", "a", 20), ("a", "", 20), ("a", "b", 21)]
        .map(|(title, description, x)| {
            let marks = vec![text((x, 20), 13, "1a")];
            scene(marks).file(|_, _| "fill:#000", title, description)
        })
        .into();
    let mut seen: Vec<String> = Vec::new();
    for file in &files {
        let file = written(file);
        for node in file.descendants().filter(Node::is_element) {
            let attributes = node.attributes().map(|attribute| attribute.name());
            let mut names = attributes.chain([node.tag_name().name()]);
            assert!(names.all(|name| !name.starts_with("styl")), "{node:?}");
            seen.extend(node.attribute("id").map(str::to_owned));
        }
    }
    let all = seen.len();
    assert_eq!(all, 2 * files.len());
    seen.sort_unstable();
    seen.dedup();
    assert_eq!(seen.len(), all);
}

/// The law of labels must be able to fail: a label that is not escaped is found.
#[test]
#[should_panic(expected = "<b>")]
fn a_label_that_is_not_escaped_is_found() {
    written("<svg><text>one <b> of</text></svg>");
}

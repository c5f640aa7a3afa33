use super::check::{enters, problems};
use super::*;

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

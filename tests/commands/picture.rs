//! `verdict --as svg`: the picture of one job, and the detail drawing of its bond.

use super::{data, run, run_with};

#[test]
fn a_picture_is_printed_and_the_status_is_that_of_the_verdict() {
    for (name, status) in [("complies.job", 0), ("corrections.job", 10), ("referred.job", 12), ("open.json", 13)] {
        for more in [&[][..], &["--detail"][..]] {
            let job = data(name);
            let ran = run(&[&["verdict", &job, "--as", "svg"], more].concat());
            assert_eq!((ran.status, ran.err.as_str()), (status, ""), "{name} {more:?}");
            assert!(ran.out.starts_with("<svg ") && ran.out.ends_with("</svg>\n"), "{name} {more:?}");
            // As every rendering of a verdict it ends with the cautions.
            for part in ["Smell gas?", "the authority having jurisdiction decides", "last read on 2026-11-24"] {
                assert!(ran.out.contains(part), "{name} {more:?}: {part}");
            }
        }
    }
}

#[test]
fn the_detail_is_another_drawing() {
    let job = data("complies.job");
    let (picture, detail) =
        (run(&["verdict", &job, "--as", "svg"]).out, run(&["verdict", &job, "--as", "svg", "--detail"]).out);
    assert!(picture.contains(">Picture of") && !picture.contains(">no clamp here<"));
    assert!(detail.contains(">Bonding detail") && detail.contains("IRC 2021 G2411.2"));
}

#[test]
fn a_picture_shows_one_job() {
    let (one, other) = (data("complies.job"), data("corrections.job"));
    let ran = run(&["verdict", &one, &other, "--as", "svg"]);
    assert_eq!((ran.status, ran.out.as_str()), (2, ""));
    assert_eq!(ran.err, "error: a picture shows one job\n  help: draw each job by itself, into a file of its own\n");
    let list = run_with(
        &["verdict", "-", "--as", "svg"],
        r#"[{ "schema": "groundrule/job/1", "place": "stonecroft" }, { "schema": "groundrule/job/1", "place": "merrin" }]"#,
    );
    assert_eq!(
        (list.status, list.out.as_str(), list.err.lines().next()),
        (2, "", Some("error: a picture shows one job"))
    );
}

#[test]
fn detail_is_for_a_drawing() {
    let ran = run(&["verdict", &data("complies.job"), "--detail"]);
    assert_eq!((ran.status, ran.out.as_str()), (2, ""));
    assert_eq!(ran.err, "error: --detail is for a drawing\n  help: add --as svg, or leave --detail out\n");
}

#[test]
fn a_job_that_cannot_be_read_is_told_as_ever() {
    let ran = run_with(&["verdict", "-", "--as", "svg"], "place nowhere-at-all\n");
    assert_eq!((ran.status, ran.out.as_str()), (1, ""));
    assert!(ran.err.contains("nowhere-at-all"), "{}", ran.err);
}

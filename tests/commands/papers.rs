//! `verdict --as html`: the papers.

use super::{data, run};

#[test]
fn every_paper_is_one_file_that_needs_nothing_else() {
    for paper in ["answer", "plan-notes", "detail", "materials", "work-split", "checklist", "notice", "owners-letter"] {
        let ran = run(&["verdict", &data("corrections.job"), "--as", "html", "--paper", paper]);
        assert_eq!((ran.status, ran.err.as_str()), (10, ""), "{paper}");
        assert!(ran.out.starts_with("<!DOCTYPE html>\n<html lang=\"en\">"), "{paper}");
        assert!(ran.out.contains("<style>") && ran.out.ends_with("</html>\n"), "{paper}");
        for word in ["<script", "<link", "src=", "@import", "url("] {
            assert!(!ran.out.contains(word), "{paper}: {word}");
        }
    }
}

#[test]
fn without_a_name_it_is_the_reasoned_answer() {
    let one = run(&["verdict", &data("complies.job"), "--as", "html"]);
    assert_eq!(one.status, 0);
    assert_eq!(one.out, run(&["verdict", &data("complies.job"), "--as", "html", "--paper", "answer"]).out);
    assert!(one.out.contains("Reasoned answer"));
}

#[test]
fn several_jobs_make_one_document_with_a_paper_each() {
    let (one, other) = (data("complies.job"), data("corrections.job"));
    let ran = run(&["verdict", &one, &other, "--as", "html", "--paper", "checklist"]);
    assert_eq!(ran.status, 10);
    assert_eq!(ran.out.matches("<article class=\"paper checklist\"").count(), 2);
    assert_eq!(ran.out.matches("<!DOCTYPE html>").count(), 1);
    assert!(ran.out.contains(".paper + .paper { break-before: page; }"));
}

#[test]
fn a_paper_speaks_the_readers_language_in_the_readers_units() {
    let job = data("complies.job");
    let ran = run(&["verdict", &job, "--as", "html", "--paper", "materials", "--language", "es", "--units", "m"]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    assert!(ran.out.contains("<html lang=\"es\">"));
    assert!(ran.out.contains("Abrazadera de unión"));
    assert!(ran.out.contains("22.86 m (75 ft)"), "{}", ran.out);
}

#[test]
fn a_page_of_text_tells_lengths_in_the_readers_units() {
    let ran = run(&["verdict", &data("complies.job"), "--units", "m"]);
    assert_eq!(ran.status, 0);
    assert!(ran.out.contains("at most 22.86 m (75 ft)"), "{}", ran.out);
}

#[test]
fn options_that_make_no_sense_together_are_refused() {
    let job = data("complies.job");
    for (arguments, said) in [
        (&["--paper", "notice"][..], "--paper names a paper"),
        (&["--as", "json", "--paper", "notice"], "--paper names a paper"),
        (&["--as", "json", "--language", "es"], "JSON is written in one language"),
        (&["--as", "json", "--units", "m"], "figures in JSON stay as they were written"),
        (&["--as", "html", "--why"], "a paper is told in full anyway"),
        (&["--as", "html", "--ways"], "neither a paper nor a drawing"),
        (&["--as", "html", "--detail"], "--detail is for a drawing"),
        (&["--as", "html", "--paper", "nonsense"], "[possible values: answer, plan-notes, detail"),
        (&["--as", "html", "--language", "fr"], "[possible values: en, es]"),
        (&["--units", "mile"], "[possible values: ft, m]"),
    ] {
        let arguments: Vec<&str> = ["verdict", &job].into_iter().chain(arguments.iter().copied()).collect();
        let ran = run(&arguments);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{arguments:?}");
        assert!(ran.err.contains(said), "{arguments:?}: {}", ran.err);
    }
}

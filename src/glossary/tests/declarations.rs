//! Errors in declarations: one for each cause, and none for what rests on it.

use super::{BASE, build, one_wrong, wrong};
use crate::syntax::codes;

#[test]
fn a_name_is_declared_once_where_it_holds() {
    for more in [
        "fact concealed date",
        "record concealed  wide yes-no",
        "fact run yes-no",
        "choice trade  plumber",
        "subject fuel-gas",
        "question permits on permitting ladder a, b",
        "definition bonded  concealed is yes",
        "fact concealed yes-no in harlow",
        "fact septic yes-no in larkspur\n fact septic yes-no in millrace",
        "choice roof  flat steep flat",
        "extend trade in harlow  electrician",
        "extend trade in harlow  bonder\n extend trade in larkspur  bonder",
        "list shed  wide yes-no  wide count",
        "question roof on permitting ladder flat, steep, flat",
    ] {
        let found = wrong(more);
        assert_eq!(found.len(), 1, "{more}\n{found:#?}");
        assert_eq!(found[0].code, codes::DUPLICATE_NAME, "{more}");
        assert_eq!(found[0].also.len(), 1, "both places are shown: {more}");
        assert_ne!(found[0].also[0].0, found[0].at, "{more}");
    }
}

#[test]
fn unknown_names_are_shown_with_the_nearest() {
    let cases = [
        ("fact roof tubing-jaket", "tubing-jaket", "did you mean `tubing-jacket`?"),
        ("fact roof several tubing-jaket", "tubing-jaket", "did you mean `tubing-jacket`?"),
        ("fact roof yesno", "yesno", "did you mean `yes-no`?"),
        ("extend trad in harlow  bonder", "trad", "did you mean `trade`?"),
        ("question roof on permiting ladder a, b", "permiting", "did you mean `permitting`?"),
        ("question roof on permitting only trades", "trades", "did you mean `trade`?"),
        (
            "question roof on permitting ladder a, b contrary to direct-bnod",
            "direct-bnod",
            "did you mean `direct-bond`?",
        ),
        ("question roof on permitting at most ft measures jumper.lenght", "lenght", "did you mean `length`?"),
        ("fact roof date never before aplication-date", "aplication-date", "did you mean `application-date`?"),
    ];
    for (more, word, help) in cases {
        let (code, message, found) = one_wrong(more);
        assert_eq!(code, codes::UNKNOWN_NAME, "{more}");
        assert!(message.contains(&format!("`{word}`")), "{message}");
        assert_eq!(found, help, "{more}");
    }
    let (code, message, help) = one_wrong("choice roof  flat under flatt  steep");
    assert_eq!((code, &*help), (codes::UNKNOWN_TERM, "did you mean `flat`?"));
    assert!(message.contains("`flatt`"));
}

#[test]
fn units_are_known_words() {
    for (more, help) in [
        ("fact roof quantity feet", "did you mean `ft`?"),
        ("question roof on permitting at most inches", "did you mean `inch`?"),
        ("fact roof quantity FT", "did you mean `ft`?"),
    ] {
        let (code, _, found) = one_wrong(more);
        assert_eq!((code, &*found), (codes::UNIT, help), "{more}");
    }
    let (_, _, help) = one_wrong("fact roof quantity parsec");
    assert!(help.starts_with("the units are ft, inch"), "{help}");
}

#[test]
fn circles_are_found_and_named() {
    let cases = [
        ("choice roof  flat under steep  steep under flat", "`flat`, `steep`, `flat`"),
        ("choice roof  flat under flat", "`flat`, `flat`"),
        ("fact aa date never before bb\n fact bb date never before aa", "`aa`, `bb`, `aa`"),
        ("fact aa date never before aa", "`aa`, `aa`"),
        ("fact aa yes-no presumed where bb is yes\n fact bb yes-no presumed where not (aa is yes)", "`aa`, `bb`, `aa`"),
        ("definition aa  bb or concealed is yes\n definition bb  not aa", "`aa`, `bb`, `aa`"),
        ("fact aa yes-no presumed where dd\n definition dd  aa is no", "`aa`, `aa`"),
    ];
    for (more, members) in cases {
        let (code, message, _) = one_wrong(more);
        assert_eq!(code, codes::CIRCLE, "{more}");
        assert!(message.ends_with(&format!("in a circle: {members}")), "{message}");
    }
}

#[test]
fn parts_are_played_once_by_facts_that_can() {
    for more in [
        "fact roof date dates instruments",
        "fact roof code chooses the code",
        "fact roof name names the supplier",
        "fact roof earlier-or-later chooses the text",
    ] {
        let found = wrong(more);
        assert_eq!(found.len(), 1, "{more}\n{found:#?}");
        assert_eq!((found[0].code, found[0].also.len()), (codes::PART, 1));
        assert!(found[0].message.contains("are both the fact that"), "{}", found[0].message);
    }
    let bare = |more: &str| {
        let mut found = build(&["choice trade  plumber\n subject s", more]).diagnostics;
        assert_eq!(found.len(), 1, "{more}\n{found:#?}");
        (found[0].code, found.remove(0).help.unwrap())
    };
    for (more, help) in [
        ("fact roof yes-no dates instruments", "has the shape `date`"),
        ("fact roof name chooses the code", "has the shape `code`"),
        ("fact roof code names the supplier", "has the shape `name`"),
        ("fact roof trade chooses the text", "`earlier` and `later`"),
        ("fact roof date dates instruments in harlow", "known everywhere"),
        ("list shed  built date dates instruments", "to a fact or an attribute of a record"),
    ] {
        let (code, found) = bare(more);
        assert_eq!(code, codes::PART, "{more}");
        assert!(found.contains(help), "{found}");
    }
}

#[test]
fn an_order_fits_what_is_measured() {
    for more in [
        "question roof on permitting ladder flat",
        "question roof on permitting ladder a, b measures concealed",
        "question roof on permitting at most ft measures service-rating",
        "question roof on permitting at most ft measures jumper.size",
        "question roof on permitting at least gauge measures jumper.length",
        "question roof on permitting only trade measures occupancy",
        "question roof on permitting only permit-kind measures permits-held",
        "question roof on permitting all of trade measures performer",
        "question roof on permitting only trade per jumper.material",
        "question roof on permitting at most ft per jumper.length",
        "question roof on permitting at most ft per permits-held",
        "question roof on permitting ladder a, b contrary to roof",
        "question roof on permitting ladder a, b contrary to jumper-size",
        "question roof on permitting at most ft measures jumper.length met where concealed is yes",
    ] {
        let (code, _, _) = one_wrong(more);
        assert_eq!(code, codes::ORDER, "{more}");
    }
    assert!(wrong("question roof on permitting at most m measures jumper.length").is_empty());
    assert!(wrong("question roof on permitting at least count measures meters").is_empty());
}

#[test]
fn dates_and_presumptions_stand_on_facts_that_can_bear_them() {
    for more in [
        "fact roof count never before application-date",
        "fact roof date never before concealed",
        "list shed  built date never before application-date",
        "fact roof date presumed where concealed is yes",
        "list shed  wide yes-no presumed where concealed is yes",
    ] {
        let (code, _, _) = one_wrong(more);
        assert_eq!(code, codes::SHAPE, "{more}");
    }
    let (code, message, _) = one_wrong("fact roof yes-no presumed where direct-bond is required");
    assert_eq!(code, codes::NOT_HERE, "{message}");
    let (code, message, _) = one_wrong("fact roof yes-no presumed where bonded");
    assert_eq!(code, codes::NOT_HERE, "{message}");
    let (code, _, _) = one_wrong("fact roof date never before run.length");
    assert_eq!(code, codes::LIST);
}

#[test]
fn a_job_keeps_its_own_words() {
    let (code, message, _) = one_wrong("fact schema yes-no");
    assert_eq!(code, codes::RESERVED);
    assert!(message.contains("`schema`"));
}

#[test]
fn the_root_cause_stands_alone() {
    // The choice is misspelt; the fact, its test and the question that measures it rest on it.
    let (code, message, _) = one_wrong(
        "fact roof tubing-jaket\n definition flat-roof  roof is plain\n fact shed yes-no presumed where flat-roof
         question roofing on permitting only tubing-jacket measures roof asked where roof is not plain",
    );
    assert_eq!(code, codes::UNKNOWN_NAME);
    assert!(message.contains("tubing-jaket"));
    let (code, _, _) = one_wrong("fact roof yes-no in nowhere\n definition dd  roof is yes");
    assert_eq!(code, codes::UNKNOWN_PLACE);
    let (code, _, _) = one_wrong("extend trade in nowhere  bonder\n definition dd  performer is bonder");
    assert_eq!(code, codes::UNKNOWN_PLACE);
    let (code, _, _) =
        one_wrong("definition aa  bb\n definition bb  aa\n definition cc  not aa\n fact roof yes-no presumed where cc");
    assert_eq!(code, codes::CIRCLE);
}

#[test]
fn every_independent_error_is_found() {
    let found = wrong(
        "fact aa nothing-known\n question bb on nowhere ladder x, y\n definition cc  concealed is maybe and permits-held is gas",
    );
    let codes: Vec<_> = found.iter().map(|one| one.code).collect();
    assert_eq!(codes, [codes::UNKNOWN_NAME, codes::UNKNOWN_NAME, codes::SHAPE, codes::SHAPE], "{found:#?}");
}

#[test]
fn a_choice_has_at_most_128_terms() {
    let terms = |count: usize| (0..count).map(|at| format!("t{at} ")).collect::<String>();
    assert!(build(&[&format!("choice roof {}", terms(128))]).diagnostics.is_empty());
    let found = build(&[&format!("choice roof {}", terms(129))]).diagnostics;
    assert_eq!(found.iter().map(|one| one.code).collect::<Vec<_>>(), [codes::LIMIT]);
    let built = build(&[&format!("choice roof {}", terms(128)), "extend roof in harlow  one-more"]);
    assert_eq!(built.diagnostics.len(), 1);
}

#[test]
fn definitions_that_double_are_refused_before_they_grow() {
    let mut text = String::from("definition d0  concealed is yes\n");
    for at in 1..60 {
        text.push_str(&format!("definition d{at}  d{} and d{}\n", at - 1, at - 1));
    }
    let (code, message, _) = one_wrong(&text);
    assert_eq!(code, codes::LIMIT);
    assert!(message.contains("size of a condition"), "{message}");
}

#[test]
fn a_long_chain_of_definitions_takes_no_stack() {
    let mut text = String::from("definition d0  concealed is yes\n");
    for at in 1..20_000 {
        text.push_str(&format!("definition d{at}  not d{}\n", at - 1));
    }
    let (code, _, _) = one_wrong(&text);
    assert_eq!(code, codes::LIMIT);
}

#[test]
fn more_declarations_than_numbers_are_refused() {
    let text: String = (0..65_540).map(|at| format!("fact f{at} yes-no\n")).collect();
    let found = build(&[BASE, &text]).diagnostics;
    assert_eq!(found.first().map(|one| one.code), Some(codes::LIMIT));
}

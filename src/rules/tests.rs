//! A set of rules after one file changed is the set that would have been made anew.

use super::*;

/// A state, two towns with law of their own, and a supplier whose rules the state ends.
const FILES: [(&str, &str); 4] = [
    (
        "law/state.rule",
        r#"
place northmarch "State of Northmarch"
    read "invented" on 2026-01-01
instrument NM-1 of northmarch "Act 1"
    kind statute
    adopted 2016-01-01
    in force from 2016-07-01
    adopts IFGC 2015
instrument NM-2 of northmarch "Act 2"
    kind statute
    in force from 2024-01-01
    repeals AB-1 of alderby
"#,
    ),
    (
        "law/alderby.rule",
        r#"
place alderby "Alderby" within northmarch
    read "invented" on 2026-01-01
instrument AB-1 "Ordinance 1"
    kind ordinance
    in force from 2019-01-01
    amend IFGC any
        except 310.1.1 "Repairs"
            where work is repair
instrument AB-2 "Ordinance 2"
    kind ordinance
    in force from 2020-01-01
    amend AB-1
        delete 4.1
    section 7 "Who may install"
        performer only electrician
"#,
    ),
    (
        "law/words.rule",
        r#"
place birchley "Birchley" within northmarch
    read "invented" on 2026-01-01
    nothing of its own on fuel-gas read "index" on 2026-01-01
fact mill-side yes-no "Beside the mill" in birchley
    ask "Is it beside the mill?"
"#,
    ),
    (
        "law/birchley.rule",
        r#"
instrument BL-1 of birchley "Ordinance 1"
    kind ordinance
    in force from 2021-01-01
    section 1 "Beside the mill"
        where mill-side is yes
        performer none of plumber
example "beside the mill"
    job
        place birchley
        application-date 2024-06-03
        occupancy commercial
        work new-system
        mill-side yes
    verdict
        performer none of plumber
"#,
    ),
];

/// What is changed in which file, one after another; each stays for the next.
const CHANGES: [(usize, &str, &str); 26] = [
    (1, "Ordinance 2", "Second ordinance"),
    (1, "performer only electrician", "performer only electrician, plumber"),
    (1, "electrician, plumber", "electrician, plumer"),
    (3, "mill-side is yes", "mill-side is no"),
    (1, "plumer", "plumber"),
    (1, "section 7", "section 4.1"),
    (1, "delete 4.1", "delete 9.9"),
    (1, "kind ordinance\n    in force from 2019", "kind ordinanse\n    in force from 2019"),
    (1, "ordinanse", "ordinance"),
    (0, "adopts IFGC 2015", "adopts IFGC 2018"),
    (0, "read \"invented\"", "read \"also invented\""),
    (0, "repeals AB-1 of alderby", "repeals AB-9 of alderby"),
    (0, "AB-9", "AB-2"),
    (1, "Alderby\"", "Town of Alderby\""),
    (3, "instrument BL-1 of birchley", "instrument BL-1 of \"Birchley\""),
    (2, "\"Birchley\"", "\"Birchley Mills\""),
    (2, "\"Birchley Mills\"", "\"Northern Birchley\"\n    also \"birchley\""),
    (3, "of \"Birchley\"", "of birchley"),
    (2, "on fuel-gas", "on licensing"),
    (2, "mill-side", "weir-side"),
    (3, "mill-side", "weir-side"),
    (0, "instrument NM-2", "instrument NM-0"),
    (1, "place alderby", "place aldersby"),
    (0, "of alderby", "of aldersby"),
    (1, "within northmarch", "within birchley"),
    (3, "in force from 2021-01-01", "in force from 2021-01-01 by mill-date"),
];

fn read(number: usize, name: &str, text: &str) -> Arc<Loaded> {
    Arc::new(Loaded::read(FileId(number as u32), Source::new(name, text)))
}

/// The glossary, one code, and the files above.
fn files() -> (Vec<Arc<Loaded>>, usize) {
    let base = |file: &Arc<Loaded>| ["rules/glossary.rule", "rules/codes/ifgc.rule"].contains(&&*file.name);
    let mut files: Vec<Arc<Loaded>> = shipped_files().into_iter().filter(base).collect();
    let first = files.len();
    for (at, (name, text)) in FILES.iter().enumerate() {
        files.push(read(first + at, name, text));
    }
    (files, first)
}

/// All that is known of a set, without what is made when first asked for.
fn told(rules: &Rules) -> String {
    let library = rules.library();
    let mut diagnostics = rules.diagnostics().to_vec();
    diagnostics.sort_by(|one, other| (one.at, one.code, &one.message).cmp(&(other.at, other.code, &other.message)));
    let issuers: Vec<_> = library.places.all().collect();
    let givers: Vec<_> = library.lawgivers().collect();
    let of: Vec<_> = library.places.all().map(|(id, _)| library.of_issuer(id).to_vec()).collect();
    let mut text = format!("{diagnostics:#?}\n{issuers:#?}\n{givers:?}\n{of:?}\n{:#?}\n", library.outsiders());
    for own in &library.instruments {
        text.push_str(&format!("{own:#?}\n"));
    }
    if rules.linked() {
        text.push_str(&format!("{:#?}\n{:#?}\n", review::errors(rules), review::lints(rules)));
        text.push_str(&format!("{:#?}\n", review::examples::run(rules, |_| true).findings));
    }
    text
}

#[test]
fn a_changed_file_changes_what_it_would_have_changed() {
    let (mut files, first) = files();
    let mut texts: Vec<String> = FILES.iter().map(|(_, text)| (*text).to_owned()).collect();
    let mut before = Rules::of(files.clone());
    assert!(before.linked(), "{:?}", before.diagnostics());
    for (at, old, new) in CHANGES {
        let text = &mut texts[at];
        assert!(text.contains(old), "{old}");
        *text = text.replacen(old, new, usize::MAX);
        files[first + at] = read(first + at, FILES[at].0, text);
        let again = Rules::again(files.clone(), &before);
        let anew = Rules::of(files.clone());
        assert!(told(&again) == told(&anew), "{old} to {new}");
        assert!(!again.is_of(&[]) && again.is_of(&files) && !before.is_of(&files));
        before = again;
    }
}

#[test]
fn what_is_not_touched_is_shared() {
    let (mut files, first) = files();
    let before = Rules::of(files.clone());
    let changed = FILES[1].1.replace("Who may install", "Who may install a bond");
    files[first + 1] = read(first + 1, FILES[1].0, &changed);
    let again = Rules::again(files, &before);
    let shared = |id: &str| {
        let at = before.library().instruments.iter().position(|own| &*own.id == id).unwrap();
        Arc::ptr_eq(&before.library().instruments.share(at).unwrap(), &again.library().instruments.share(at).unwrap())
    };
    assert!(Arc::ptr_eq(&before.library().glossary, &again.library().glossary));
    assert!(shared("BL-1"), "another town");
    assert!(!shared("AB-1") && !shared("AB-2"), "the file itself");
    assert!(!shared("NM-2"), "it names an instrument of the file");
}

#[test]
fn one_file_more_makes_the_set_made_anew() {
    let (files, first) = files();
    let last = files.len() - 1;
    let (name, text) = FILES[last - first];
    let before = Rules::of(files[..last].to_vec());
    let (after, file) = before.and(Source::new(name, text));
    assert_eq!((file, after.hash()), (FileId(last as u32), Rules::of(files.clone()).hash()));
    assert!(told(&after) == told(&Rules::of(files.clone())));
    assert!((0..last).all(|at| Arc::ptr_eq(&after.files[at], &files[at])), "they are not read again");
    let (again, known) = after.and(Source::new("other name.rule", text));
    assert_eq!((known, again.hash()), (file, after.hash()));
}

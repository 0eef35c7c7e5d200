//! What a library holds of its codes, counted by hand.

use crate::review::coverage::{Tally, coverage};
use crate::rules::{Rules, Source};

const CODES: &str = r#"
subject gas-piping
fact storeys count
fact application-date date dates instruments
question bond on gas-piping ladder not-required, required
question tubing on gas-piping ladder permitted, prohibited
question rating on gas-piping at least A
code ZC "Zinc code" on gas-piping
code GC "Gas code" on gas-piping
edition ZC 2018 text not here
edition GC 2012
    from memory
    definition tall storeys over 3
    section 1 "Bond"
        bond is required
        tubing is permitted
    section 2 "A note and no more"
        note "look"
    section 3 "Two questions referred"
        refer bond, tubing "both readings are heard"
        read "a page" on 2026-11-24
    table 4 "Ratings" by storeys gives rating
        through 2 gives 10 A
        over 2 gives 20 A
        common practice
    left out 7 "vents"
    left out 8 "meters"
    left out 3 "its third sentence"
    unread 9 on tubing
    unread 10
edition GC 2015 revises GC 2012
    read "another page" on 2026-11-24
    renumber 1 to 1.1
    replace 3 "One question"
        bond is not-required
    except 4 "Never"
        where tall
        rating at least 30 A
    add 8 "Meters"
        tubing is prohibited
    unread 11 on bond
edition GC 2018 revises GC 2015
    common practice
    add 9 "Read at last"
        tubing is prohibited
    left out 10 "on purpose now"
    delete 1.1
"#;

fn rules() -> Rules {
    let rules = Rules::only(vec![Source::new("codes.rule", CODES)]);
    assert!(rules.usable(), "{:?}", rules.problems().collect::<Vec<_>>());
    rules
}

#[test]
fn what_stands_is_counted_by_what_it_rests_on() {
    let rules = rules();
    let accounts = coverage(rules.library(), |code, _| code == "GC");
    let tallies: Vec<Tally> = accounts.iter().map(|account| account.tally).collect();
    let none = Tally::default();
    // 1 on two questions from memory, 3 on two that were read, the table.
    let first = Tally { sections: 4, provisions: 5, read: 2, memory: 2, practice: 1, left_out: 3, unread: 2, ..none };
    // 1.1 is still from memory; 3 and 8 were read; the exception to the table counts with it.
    let second = Tally { sections: 5, provisions: 6, read: 2, memory: 2, practice: 2, left_out: 2, unread: 3, ..none };
    let third = Tally { sections: 5, provisions: 5, read: 2, memory: 0, practice: 3, left_out: 3, unread: 1, ..none };
    assert_eq!(tallies, [first, second, third]);
    let mut all = first;
    all += second;
    assert_eq!((all.sections, all.provisions, all.memory), (9, 11, 4));
}

#[test]
fn what_was_passed_over_stays_until_a_later_edition_speaks_of_it() {
    let rules = rules();
    let accounts = coverage(rules.library(), |code, _| code == "GC");
    let left = |at: usize| -> Vec<(&str, i32)> {
        accounts[at].left_out.iter().map(|left| (left.number, left.since)).collect()
    };
    // Of a section that is held a part may be left out.
    assert_eq!(left(0), [("3", 2012), ("7", 2012), ("8", 2012)]);
    assert_eq!(left(1), [("3", 2012), ("7", 2012)], "8 was added");
    assert_eq!(left(2), [("3", 2012), ("7", 2012), ("10", 2018)]);
    assert_eq!(accounts[0].left_out[1].why, "vents");
    let unread = |at: usize| -> Vec<(&str, i32)> {
        accounts[at].unread.iter().map(|unread| (unread.number, unread.since)).collect()
    };
    assert_eq!(unread(0), [("9", 2012), ("10", 2012)]);
    assert_eq!(unread(1), [("9", 2012), ("10", 2012), ("11", 2015)]);
    assert_eq!(unread(2), [("11", 2015)], "9 was read, 10 left out on purpose");
}

#[test]
fn what_is_unread_names_its_questions() {
    let rules = rules();
    let accounts = coverage(rules.library(), |_, year| year == 2012);
    let unread: Vec<(&str, bool, Vec<&str>)> =
        accounts[0].unread.iter().map(|one| (one.number, one.all, one.questions.clone())).collect();
    assert_eq!(unread, [("9", false, vec!["tubing"]), ("10", true, vec!["bond", "rating", "tubing"])]);
    assert_eq!(accounts[0].definitions, ["tall"]);
}

#[test]
fn codes_stand_by_name_and_editions_by_year() {
    let rules = rules();
    let accounts = coverage(rules.library(), |_, _| true);
    let names: Vec<String> =
        accounts.iter().map(|account| format!("{} {}", account.code.name, account.edition.year)).collect();
    assert_eq!(names, ["GC 2012", "GC 2015", "GC 2018", "ZC 2018"]);
    assert!(accounts[3].edition.text_not_here && accounts[3].tally == Tally::default());
    assert_eq!(
        accounts.iter().map(|account| account.revises).collect::<Vec<_>>(),
        [None, Some(2012), Some(2015), None]
    );
}

//! Each check with a rule text that has the fault and one that has not.

use crate::review::{errors, lints};
use crate::rules::{Rules, Source};
use crate::syntax::diagnostic::Diagnostic;

/// The words, two codes and two places of the rule texts below.
const GROUND: &str = r#"
choice use-class
    dwelling
    shop
subject gas-piping
subject wiring
fact application-date date dates instruments
fact permit-date date
fact use use-class
fact storeys count
list run
    product name
    plain yes-no
question bond on gas-piping ladder not-required, required
question tubing on gas-piping ladder permitted, prohibited
question grounding on wiring ladder not-required, required
question rating on wiring at least A
code GC "Gas code" on gas-piping
code RC "Residential code" on gas-piping, wiring
code EC "Electrical code" on wiring
edition GC 2015 published 2015-02-01
    common practice
    section 1 "Bond"
        bond is required
    section 1.1 "Tubing"
        tubing is permitted
    section 2 "More"
        tubing is permitted
edition GC 2018 published 2018-02-01
    common practice
    section 1 "Bond"
        bond is required
    section 5 "Tubing"
        tubing is permitted
edition RC 2018
    common practice
    section 9 "Grounding"
        grounding is required
    section G1 as GC 2018 1
edition EC 2017
    common practice
    section 3 "Grounding"
        grounding is required
place alder "Alder"
    common practice
place birch "Birch" within alder
    common practice
maker flexmaker "Flex Maker"
    common practice
"#;

fn found(text: &str) -> (Vec<Diagnostic>, Vec<Diagnostic>) {
    let sources = [("ground.rule", GROUND), ("more.rule", text)];
    let rules = Rules::only(sources.map(|(name, text)| Source::new(name, text)).to_vec());
    let problems = rules.diagnostics();
    assert!(problems.is_empty(), "{text}\n{problems:#?}");
    (errors(&rules), lints(&rules))
}

/// The codes of what is found in a rule text beside the ground, errors first.
fn check(text: &str) -> Vec<String> {
    let (errors, lints) = found(text);
    errors.iter().chain(&lints).map(|told| told.code.to_string()).collect()
}

/// An instrument in force from a day.
fn law(id: &str, of: &str, day: &str, clauses: &str) -> String {
    format!("instrument {id} of {of}\n kind ordinance\n in force from {day}\n {clauses}\n")
}

fn none() -> Vec<String> {
    Vec::new()
}

#[test]
fn the_ground_has_no_fault() {
    assert_eq!(check(""), none());
}

#[test]
fn a_patch_of_a_section_that_is_not_there() {
    let adopts = "adopts GC 2018 amend GC 2018";
    assert_eq!(check(&law("A-1", "alder", "2019-01-01", &format!("{adopts} except 7 where use is shop"))), ["GR0602"]);
    assert_eq!(check(&law("A-1", "alder", "2019-01-01", &format!("{adopts} except 5 where use is shop"))), none());
    assert_eq!(check(&law("A-1", "alder", "2019-01-01", &format!("{adopts} renumber 7 to 8"))), ["GR0602"]);
    assert_eq!(
        check(&law("A-1", "alder", "2019-01-01", &format!("{adopts} renumber 5 to 8 except 8 where use is shop"))),
        none()
    );
}

#[test]
fn the_nearest_number_is_named() {
    let (errors, _) =
        found(&law("A-1", "alder", "2019-01-01", "adopts GC 2015 amend GC 2015 except 1.2 where use is shop"));
    assert_eq!(errors[0].help.as_deref(), Some("did you mean `1.1`?"));
}

#[test]
fn a_patch_of_what_an_earlier_one_added() {
    let first = law("A-1", "alder", "2019-01-01", "adopts GC 2018 amend GC 2018 add 9 bond is required");
    let second = |place: &str, day: &str| law("B-1", place, day, "amend GC 2018 except 9 where use is shop");
    assert_eq!(check(&format!("{first}{}", second("alder", "2020-01-01"))), none());
    assert_eq!(check(&format!("{first}{}", second("birch", "2020-01-01"))), none());
    assert_eq!(check(&format!("{first}{}", second("alder", "2018-06-01"))), ["GR0602"]);
    // What is only proposed comes last.
    let proposed = "instrument B-1 of birch kind ordinance status proposed amend GC 2018 except 9 where use is shop";
    assert_eq!(check(&format!("{first}{proposed}")), none());
}

#[test]
fn a_patch_of_what_the_place_itself_deleted() {
    let first = law("A-1", "alder", "2019-01-01", "adopts GC 2018 amend GC 2018 delete 5");
    let second = law("A-2", "alder", "2020-01-01", "amend GC 2018 replace 5 tubing is prohibited");
    assert_eq!(check(&format!("{first}{second}")), ["GR0602"]);
    // Where the deletion may come to an end the patch may act.
    let third = law("A-3", "alder", "2021-01-01", "repeals A-1");
    assert_eq!(check(&format!("{first}{second}{third}")), none());
}

#[test]
fn patches_of_an_instrument() {
    let first = law("B-1", "birch", "2019-01-01", "section 1 bond is required");
    assert_eq!(check(&format!("{first}{}", law("B-2", "birch", "2020-01-01", "amend B-1 delete 1"))), none());
    assert_eq!(check(&format!("{first}{}", law("B-2", "birch", "2020-01-01", "amend B-1 delete 2"))), ["GR0602"]);
    assert_eq!(
        check(&format!("{first}{}", law("A-2", "alder", "2020-01-01", "amend B-1 of birch delete 2"))),
        ["GR0602"]
    );
}

#[test]
fn a_patch_of_any_edition() {
    let adopts = law("A-1", "alder", "2019-01-01", "adopts GC 2018");
    let any = |patch: &str| format!("{adopts}{}", law("A-2", "alder", "2020-01-01", &format!("amend GC any {patch}")));
    assert_eq!(check(&any("except 5 where use is shop")), none());
    assert_eq!(check(&any("except 2 where use is shop")), ["GR0602"]);
}

#[test]
fn a_number_that_is_taken() {
    let adopts = "adopts GC 2018 amend GC 2018";
    assert_eq!(check(&law("A-1", "alder", "2019-01-01", &format!("{adopts} add 5 bond is required"))), ["GR0601"]);
    assert_eq!(check(&law("A-1", "alder", "2019-01-01", &format!("{adopts} add 6 bond is required"))), none());
    let first = law("A-1", "alder", "2019-01-01", &format!("{adopts} add 6 bond is required"));
    let again = |place: &str| law("B-1", place, "2020-01-01", "amend GC 2018 add 6 tubing is prohibited");
    assert_eq!(check(&format!("{first}{}", again("alder"))), none());
    assert_eq!(check(&format!("{first}{}", again("birch"))), ["GR0601"]);
}

#[test]
fn sub_sections_that_stay() {
    let adopts = "adopts GC 2015 amend GC 2015";
    assert_eq!(check(&law("A-1", "alder", "2016-01-01", &format!("{adopts} delete 1"))), ["GR5101"]);
    assert_eq!(check(&law("A-1", "alder", "2016-01-01", &format!("{adopts} delete 1 and under"))), none());
    assert_eq!(check(&law("A-1", "alder", "2016-01-01", &format!("{adopts} replace 1 bond is required"))), ["GR5101"]);
    assert_eq!(check(&law("A-1", "alder", "2016-01-01", &format!("{adopts} delete 1 delete 1.1"))), none());
    assert_eq!(check(&law("A-1", "alder", "2016-01-01", &format!("{adopts} except 1 where use is shop"))), none());
    assert_eq!(check(&law("A-1", "alder", "2016-01-01", &format!("{adopts} delete 2"))), none());
}

#[test]
fn sub_sections_that_stay_in_a_new_edition() {
    let edition = |patch: &str| format!("edition GC 2021 revises GC 2015 common practice {patch}");
    assert_eq!(check(&edition("delete 1")), ["GR5101"]);
    assert_eq!(check(&edition("delete 1 and under")), none());
    assert_eq!(check(&edition("delete 1 replace 1.1 tubing is prohibited")), none());
    assert_eq!(check(&edition("replace 1 tubing is prohibited")), none());
    assert_eq!(check(&edition("replace 2 tubing is prohibited")), none());
}

#[test]
fn one_section_patched_twice_on_a_day() {
    let adopts = law("A-0", "alder", "2019-01-01", "adopts GC 2018");
    let patch = |id: &str, place: &str, day: &str, more: &str| {
        law(id, place, day, &format!("{more} amend GC 2018 replace 5 tubing is prohibited"))
    };
    let first = patch("A-1", "alder", "2020-01-01", "");
    assert_eq!(check(&format!("{adopts}{first}{}", patch("A-2", "alder", "2020-01-01", ""))), ["GR5102"]);
    assert_eq!(check(&format!("{adopts}{first}{}", patch("A-2", "alder", "2020-01-02", ""))), none());
    assert_eq!(check(&format!("{adopts}{first}{}", patch("A-2", "alder", "2020-01-01", "adopted 2019-01-01"))), none());
    assert_eq!(check(&format!("{adopts}{first}{}", patch("B-1", "birch", "2020-01-01", ""))), none());
    let apart = |id: &str, of: &str| patch(id, "alder", "2020-01-01", &format!("applies where use is {of}"));
    assert_eq!(check(&format!("{adopts}{}{}", apart("A-1", "shop"), apart("A-2", "dwelling"))), none());
    assert_eq!(check(&format!("{adopts}{}{}", apart("A-1", "shop"), apart("A-2", "shop"))), ["GR5102"]);
    let two = "amend GC 2018 replace 5 tubing is prohibited amend GC any numbered as in 2018 delete 5";
    assert_eq!(check(&format!("{adopts}{}", law("A-1", "alder", "2020-01-01", two))), ["GR0601"]);
}

#[test]
fn ties() {
    let adopts = |id: &str, place: &str, day: &str, what: &str| law(id, place, day, &format!("adopts {what}"));
    let first = adopts("A-1", "alder", "2020-01-01", "GC 2015 where storeys at most 3");
    assert_eq!(check(&format!("{first}{}", adopts("A-2", "alder", "2020-01-01", "GC 2018"))), ["GR5106"]);
    assert_eq!(
        check(&format!("{first}{}", adopts("A-2", "alder", "2020-01-01", "GC 2018 where storeys over 3"))),
        none()
    );
    assert_eq!(
        check(&format!("{first}{}", adopts("A-2", "alder", "2020-01-01", "GC 2018 where storeys at least 3"))),
        ["GR5106"]
    );
    assert_eq!(check(&format!("{first}{}", adopts("A-2", "alder", "2020-01-02", "GC 2018"))), none());
    assert_eq!(check(&format!("{first}{}", adopts("B-1", "birch", "2020-01-01", "GC 2018"))), none());
    assert_eq!(check(&format!("{first}{}", adopts("A-2", "alder", "2020-01-01", "EC 2017"))), none());
    assert_eq!(check(&format!("{first}{}", adopts("A-2", "alder", "2020-01-01", "GC 2015"))), none());
    // Where it cannot be found out whether the scopes meet, nothing is told.
    let lists = adopts("A-1", "alder", "2020-01-01", "GC 2015 where any run with (plain is yes)");
    assert_eq!(check(&format!("{lists}{}", adopts("A-2", "alder", "2020-01-01", "GC 2018"))), none());
}

#[test]
fn an_edition_adopted_before_it_was_published() {
    assert_eq!(check(&law("A-1", "alder", "2018-01-31", "adopts GC 2018")), ["GR5109"]);
    assert_eq!(check(&law("A-1", "alder", "2018-02-01", "adopts GC 2018")), none());
    assert_eq!(check(&law("A-1", "alder", "2018-06-01", "adopted 2018-01-31 adopts GC 2018")), ["GR5109"]);
    assert_eq!(check(&law("A-1", "alder", "2010-01-01", "adopts EC 2017")), none());
    assert_eq!(check(&law("A-1", "alder", "2010-01-01", "adopts GC newest")), none());
}

#[test]
fn the_newest_edition_where_one_has_no_day() {
    let newest =
        |day: &str, edition: &str| check(&format!("{edition}\n{}", law("A-1", "alder", day, "adopts GC newest")));
    let undated = |year: &str| format!("edition GC {year} common practice");
    assert_eq!(newest("2016-01-01", &undated("2016")), ["GR5112"], "2018 was not yet published");
    assert_eq!(newest("2018-02-01", &undated("2016")), none(), "2018 was the newer one from the first day");
    assert_eq!(newest("2018-02-01", &undated("2021")), ["GR5112"], "it may have followed");
    assert_eq!(newest("2016-01-01", "edition GC 2021 published 2021-02-01 common practice"), none());
    assert_eq!(check(&format!("{}\n{}", undated("2021"), law("A-1", "alder", "2019-01-01", "adopts GC 2018"))), none());
}

#[test]
fn in_force_before_it_was_adopted() {
    assert_eq!(check(&law("A-1", "alder", "2019-01-01", "adopted 2019-01-02 section 1 bond is required")), ["GR5110"]);
    assert_eq!(check(&law("A-1", "alder", "2019-01-01", "adopted 2019-01-01 section 1 bond is required")), none());
    let between = |last: &str| {
        format!("instrument A-1 of alder kind order adopted 2019-01-02 in force from between 2018-06-01 and {last}")
    };
    assert_eq!(check(&between("2019-01-01")), ["GR5110"]);
    assert_eq!(check(&between("2019-01-02")), none());
}

#[test]
fn another_code_displaced_by_the_way() {
    let first = law("A-1", "alder", "2018-01-01", "adopts EC 2017");
    let then =
        |place: &str, what: &str| format!("{first}{}", law("A-2", place, "2019-01-01", &format!("adopts {what}")));
    assert_eq!(check(&then("alder", "RC 2018")), ["GR5107"]);
    assert_eq!(check(&then("birch", "RC 2018")), ["GR5107"]);
    assert_eq!(check(&then("alder", "RC 2018 for gas-piping")), none());
    assert_eq!(check(&then("alder", "RC 2018 for gas-piping, wiring")), none());
    assert_eq!(check(&then("alder", "RC 2018 beside EC")), none());
    assert_eq!(check(&then("alder", "GC 2018")), none());
    let scoped = law("A-1", "alder", "2018-01-01", "adopts EC 2017 where use is shop");
    let then = law("A-2", "alder", "2019-01-01", "adopts RC 2018 where use is dwelling");
    assert_eq!(check(&format!("{scoped}{then}")), none());
    // A narrower code in the place of a wider one is meant to take its subject.
    let wide = law("A-1", "alder", "2018-01-01", "adopts RC 2018");
    assert_eq!(check(&format!("{wide}{}", law("A-2", "alder", "2019-01-01", "adopts EC 2017"))), none());
    let gone = law("A-3", "alder", "2018-06-01", "repeals A-1");
    assert_eq!(check(&format!("{first}{gone}{}", law("A-2", "alder", "2019-01-01", "adopts RC 2018"))), none());
}

#[test]
fn an_amendment_that_a_power_defeats() {
    let amends = law("B-1", "birch", "2020-01-01", "amend GC 2018 replace 5 tubing is prohibited");
    let power =
        |day: &str, power: &str| format!("{amends}{}", law("A-1", "alder", day, &format!("adopts GC 2018 {power}")));
    assert_eq!(check(&power("2019-01-01", "preempts tubing")), ["GR5104"]);
    assert_eq!(check(&power("2019-01-01", "preempts gas-piping")), ["GR5104"]);
    assert_eq!(check(&power("2019-01-01", "preempts tubing where use is shop")), none());
    assert_eq!(check(&power("2019-01-01", "preempts bond")), none());
    assert_eq!(check(&power("2019-01-01", "floor tubing")), none());
    assert_eq!(check(&power("2021-01-01", "preempts tubing")), none());
    assert_eq!(check(&power("2019-01-01", "applies where use is shop preempts tubing")), none());
    let ended = law("A-2", "alder", "2022-01-01", "repeals A-1");
    assert_eq!(check(&format!("{}{ended}", power("2019-01-01", "preempts tubing"))), none());
    let wider = law("B-1", "birch", "2020-01-01", "amend GC 2018 replace 5 tubing is prohibited bond is required");
    assert_eq!(
        check(&format!("{wider}{}", law("A-1", "alder", "2019-01-01", "adopts GC 2018 preempts tubing"))),
        none()
    );
}

#[test]
fn amendments_that_stay() {
    let first = law("A-1", "alder", "2019-01-01", "adopts GC 2018 amend GC 2018 delete 5");
    let again = |place: &str, more: &str| {
        format!("{first}{}", law("A-2", place, "2020-01-01", &format!("adopts GC 2018 {more}")))
    };
    assert_eq!(check(&again("alder", "")), ["GR5108"]);
    assert_eq!(check(&again("alder", "repeals A-1")), none());
    assert_eq!(check(&again("birch", "")), none());
    let before = law("A-1", "alder", "2019-01-01", "amend GC 2018 delete 5");
    assert_eq!(check(&format!("{before}{}", law("A-2", "alder", "2020-01-01", "adopts GC 2018"))), none());
}

#[test]
fn a_twin_in_another_code() {
    let law = |clauses: &str| law("A-1", "alder", "2019-01-01", clauses);
    let by_use = "adopts RC 2018 for gas-piping where use is dwelling adopts GC 2018 otherwise";
    let amends = "amend GC 2018 except 1 where use is shop";
    assert_eq!(check(&law(&format!("{by_use} {amends}"))), ["GR5105"]);
    assert_eq!(check(&law(&format!("{by_use} amend GC 2018 except 5 where use is shop"))), none());
    assert_eq!(check(&law(&format!("{by_use} {amends} amend RC 2018 except G1 where use is shop"))), none());
    assert_eq!(check(&law(&format!("adopts GC 2018 {amends}"))), none());
    // Adopted for another subject the twin does not reach.
    assert_eq!(check(&law(&format!("adopts GC 2018 adopts RC 2018 for wiring {amends}"))), none());
    // What the place itself has displaced does not either.
    let outer = law(by_use);
    let inner = |adopts: &str| super::lints::law("B-1", "birch", "2020-01-01", &format!("{adopts} {amends}"));
    assert_eq!(check(&format!("{outer}{}", inner("adopts GC 2018"))), none());
    assert_eq!(check(&format!("{outer}{}", inner("adopts GC 2018 where use is shop"))), ["GR5105"]);
}

/// A patch of any edition reaches the clause in each, under whatever number.
#[test]
fn a_twin_that_any_edition_reaches() {
    let edition =
        "edition GC 2021 revises GC 2018 common practice renumber 5 to 6 replace 6 as GC 2018 5 from memory\n";
    let first = law("A-1", "alder", "2019-01-01", "adopts GC 2018");
    let last = law("A-3", "alder", "2022-01-01", "adopts GC 2021");
    let amends =
        |target: &str| law("A-2", "alder", "2019-06-01", &format!("amend {target} except 5 where use is shop"));
    assert_eq!(check(&format!("{edition}{first}{last}{}", amends("GC any"))), none());
    // One edition alone is amended, and its text stands in the later one as it was.
    let both = law("A-1", "alder", "2019-01-01", "adopts GC 2018 where use is shop adopts GC 2021 otherwise");
    assert_eq!(check(&format!("{edition}{both}{}", amends("GC 2018"))), ["GR5105"]);
    assert_eq!(check(&format!("{edition}{both}{}", amends("GC any numbered as in 2018"))), none());
}

#[test]
fn an_instruction_that_loosens() {
    let instruction = |conds: &str, demand: &str| {
        format!(
            "instrument M-1 of flexmaker kind instructions in force from 2019-01-01 section 1 where {conds} {demand}"
        )
    };
    assert_eq!(check(&instruction("any run with (product is flexline)", "bond is not-required")), ["GR5111"]);
    assert_eq!(check(&instruction("any run with (product is flexline)", "bond is required")), none());
    assert_eq!(
        check(&instruction(
            "any run with (product is flexline) and no run with (plain is yes)",
            "bond is not-required"
        )),
        none()
    );
    assert_eq!(check(&instruction("not any run with (plain is yes)", "bond is not-required")), none());
    assert_eq!(
        check(&law("A-1", "alder", "2019-01-01", "section 1 where any run with (plain is yes) bond is not-required")),
        none()
    );
}

#[test]
fn a_target_that_an_outer_place_took_away() {
    let amends = law("B-1", "birch", "2020-01-01", "amend GC 2018 replace 5 tubing is prohibited");
    let outer = |day: &str, patch: &str| {
        format!(
            "{amends}{}{}",
            law("A-0", "alder", "2019-01-01", "adopts GC 2018"),
            law("A-1", "alder", day, &format!("amend GC 2018 {patch}"))
        )
    };
    assert_eq!(check(&outer("2021-01-01", "delete 5")), ["GR5103"]);
    assert_eq!(check(&outer("2019-06-01", "delete 5")), ["GR5103"]);
    assert_eq!(check(&outer("2021-01-01", "delete 1")), none());
    assert_eq!(check(&outer("2021-01-01", "replace 5 tubing is permitted")), none());
}

#[test]
fn tables_that_are_not_there() {
    let own = |section: &str| {
        law(
            "A-1",
            "alder",
            "2019-01-01",
            &format!("section 1 {section} table 2 by storeys gives rating through 2 gives 60 A"),
        )
    };
    assert_eq!(check(&own("rating at least by table 2")), none());
    assert_eq!(check(&own("rating at least by table 3")), ["GR0608"]);
    assert_eq!(check(&own("rating at least by table XC 3")), ["GR0305"]);
    assert_eq!(check(&own("rating at least by table EC 3")), ["GR0608"]);
    assert_eq!(check(&own("rating at least by table EC 2017 7")), ["GR0608"]);
    assert_eq!(check(&own("rating at least by table EC 2020 7")), ["GR0305"]);
    let edition = "edition EC 2020 common practice table 7 by storeys gives rating through 2 gives 60 A";
    assert_eq!(check(&format!("{edition}\n{}", own("rating at least by table EC 7"))), none());
    assert_eq!(check(&format!("{edition}\n{}", own("rating at least by table EC 2020 7"))), none());
    assert_eq!(check(&format!("{edition} section 8 rating at least by table 7")), none());
    assert_eq!(check(&format!("{edition} section 8 rating at least by table 3")), ["GR0608"]);
    let unread = "edition EC 2020 text not here common practice";
    assert_eq!(check(&format!("{unread}\n{}", own("rating at least by table EC 7"))), none());
    let added = "adopts EC 2017 amend EC 2017 add table 7 by storeys gives rating through 2 gives 60 A add 8 rating at least by table 7";
    assert_eq!(check(&law("A-1", "alder", "2019-01-01", added)), none());
}

#[test]
fn a_section_without_a_source() {
    let cedar =
        "place cedar \"Cedar\" instrument C-1 of cedar kind order in force from 2019-01-01 section 1 bond is required";
    assert_eq!(check(cedar), ["GR5100"]);
    assert_eq!(check(&format!("{cedar} from memory")), none());
}

#[test]
fn suspensions_in_a_circle() {
    let one = law("A-1", "alder", "2019-01-01", "suspends A-2");
    assert_eq!(check(&format!("{one}{}", law("A-2", "alder", "2019-01-01", "suspends A-1"))), ["GR0604"]);
    assert_eq!(check(&format!("{one}{}", law("A-2", "alder", "2019-01-01", "repeals A-1"))), none());
    let part = law("A-1", "alder", "2019-01-01", "section 1 bond is required suspends A-2");
    assert_eq!(check(&format!("{part}{}", law("A-2", "alder", "2019-01-01", "suspends A-1 1"))), none());
    let three = law("A-2", "alder", "2019-01-01", "suspends A-3") + &law("A-3", "alder", "2019-01-01", "suspends A-1");
    assert_eq!(check(&format!("{one}{three}")), ["GR0604"]);
    assert_eq!(check(&law("A-1", "alder", "2019-01-01", "suspends A-1")), ["GR0604"]);
}

#[test]
fn questions_in_a_circle() {
    let one = law("A-1", "alder", "2019-01-01", "section 1 where tubing is prohibited bond is required");
    let other = |place: &str| law("A-2", place, "2019-01-01", "section 1 where bond is required tubing is prohibited");
    assert_eq!(check(&format!("{one}{}", other("alder"))), ["GR0700"]);
    assert_eq!(check(&format!("{one}{}", other("birch"))), ["GR0700"]);
    assert_eq!(check(&one), none());
    // In two places neither of which lies in the other there is none.
    assert_eq!(check(&format!("place cedar \"Cedar\" from memory {one}{}", other("cedar"))), none());
    // An exception of the one place makes the circle.
    let adopts =
        law("A-1", "alder", "2019-01-01", "adopts GC 2018 section 1 where bond is required tubing is prohibited");
    let except = |cond: &str| law("A-2", "alder", "2020-01-01", &format!("amend GC 2018 except 1 where {cond}"));
    assert_eq!(check(&format!("{adopts}{}", except("tubing is prohibited"))), ["GR0700"]);
    assert_eq!(check(&format!("{adopts}{}", except("use is shop"))), none());
    // A definition does, too.
    let text =
        "edition GC 2021 common practice definition dark tubing is prohibited section 1 where dark bond is required";
    let place =
        law("A-1", "alder", "2022-01-01", "adopts GC 2021 section 1 where bond is required tubing is prohibited");
    assert_eq!(check(&format!("{text}\n{place}")), ["GR0700"]);
}

#[test]
fn the_shipped_rules_have_no_error() {
    let told = errors(&Rules::shipped());
    assert!(told.is_empty(), "{told:#?}");
}

#[test]
fn the_shipped_rules_leave_no_doubt() {
    let told = lints(&Rules::shipped());
    assert!(told.is_empty(), "{told:#?}");
}

//! The smallest bad files of the codes that jobs find, read against the rules
//! that ship with the program.

use crate::glossary::tests::pages::page;
use crate::job::{Defaults, read_json, read_sheet, to_json, to_sheet};
use crate::rules::Rules;
use crate::syntax::codes;
use crate::syntax::diagnostic::FileId;
use crate::syntax::tree::Item;

#[test]
fn each_smallest_bad_file_shows_its_code_and_nothing_else() {
    let rules = Rules::shipped();
    for code in [codes::JOB, codes::JOB_NAME, codes::JOB_VALUE, codes::JOB_DATE, codes::JOB_TWICE] {
        let path = format!("{}/tests/errors/{code}.json", env!("CARGO_MANIFEST_DIR"));
        let text = std::fs::read_to_string(&path).unwrap_or_else(|problem| panic!("{path}: {problem}"));
        let found = read_json(&text, rules.desk(), &Defaults::default()).expect_err(&path);
        assert_eq!(found.iter().map(|one| one.code).collect::<Vec<_>>(), [code], "{found:#?}");
        page(code);
    }
}

#[test]
fn every_example_of_the_library_is_a_job_that_comes_back() {
    let rules = Rules::shipped();
    let desk = rules.desk();
    let mut count = 0;
    for (file, tree) in rules.trees() {
        for item in &tree.items {
            let Item::Example(example) = item else { continue };
            count += 1;
            let job = read_sheet(&example.job, file, desk, &Defaults::default());
            let job = job.unwrap_or_else(|found| panic!("{}: {found:#?}", example.name.text));
            assert_eq!(
                read_json(&to_json(&job, desk).to_string(), desk, &Defaults::default()).unwrap(),
                std::slice::from_ref(&job)
            );
            let text = to_sheet(&job, desk);
            assert_eq!(read_sheet(&super::parsed_sheet(&text), FileId(3), desk, &Defaults::default()).unwrap(), job);
        }
    }
    assert!(count > 50, "{count} examples");
}

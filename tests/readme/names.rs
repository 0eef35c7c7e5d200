//! What the documents name exists: links, headings, files, codes of errors.

use crate::{text, top};
use std::path::Path;

const DOCUMENTS: [&str; 3] = ["README.md", "DEVELOPERS.md", "shared/language.md"];

/// The folders of the repository whose files documents name in backticks.
const FOLDERS: [&str; 5] = ["src/", "tests/", "rules/", "shared/", "grammar/"];

#[test]
fn links_lead_somewhere() {
    let mut found = 0;
    for document in DOCUMENTS {
        let page = text(document);
        let links = page.match_indices("](").map(|(at, _)| page[at + 2..].split(')').next().unwrap());
        for link in links.filter(|link| !link.starts_with("http")) {
            let (path, heading) = link.split_once('#').map_or((link, None), |(path, heading)| (path, Some(heading)));
            let target = match path {
                "" => top().join(document),
                path => top().join(document).parent().unwrap().join(path),
            };
            assert!(target.exists(), "{document}: {link}");
            if let Some(heading) = heading {
                let page = std::fs::read_to_string(target).unwrap();
                let mut headings = page.lines().filter(|line| line.starts_with('#')).map(slug);
                assert!(headings.any(|known| known == heading), "{document}: {link}");
            }
            found += 1;
        }
    }
    assert!(found > 20, "{found}");
}

/// The name by which a heading is linked to.
fn slug(line: &str) -> String {
    let kept = line.trim_start_matches('#').trim().to_lowercase();
    let kept = kept.chars().filter(|letter| letter.is_alphanumeric() || " -_".contains(*letter));
    kept.map(|letter| if letter == ' ' { '-' } else { letter }).collect()
}

#[test]
fn files_that_are_named_exist() {
    let mut found = 0;
    for document in DOCUMENTS {
        let page = text(document);
        let outside: String = page.split("```").step_by(2).collect();
        for span in outside.split('`').skip(1).step_by(2) {
            // A name with capitals, such as tests/errors/GRxxxx.rule, stands for many.
            let many = span.contains(['*', '<', ' ']) || span.contains("xxxx") || span.contains("NAME");
            if FOLDERS.iter().any(|folder| span.starts_with(folder)) && !many {
                assert!(exists(span), "{document}: {span}");
                found += 1;
            }
        }
    }
    assert!(found > 30, "{found}");
}

/// Whether a path, perhaps with `::` and a test in it, leads to something.
fn exists(span: &str) -> bool {
    let (path, test) = span.split_once("::").map_or((span, None), |(path, test)| (path, Some(test)));
    let path = top().join(Path::new(path));
    match test {
        None => path.exists(),
        Some(test) => std::fs::read_to_string(path).is_ok_and(|source| source.contains(&format!("fn {test}("))),
    }
}

#[test]
fn codes_of_errors_exist() {
    let source = text("src/syntax/codes.rs");
    let mut found = 0;
    for document in DOCUMENTS {
        let page = text(document);
        for (at, _) in page.match_indices("GR") {
            let digits: String = page[at + 2..].chars().take_while(char::is_ascii_digit).collect();
            if digits.len() == 4 {
                let number: u16 = digits.parse().unwrap();
                assert!(source.contains(&format!("= {number},")), "{document}: GR{digits}");
                assert!(
                    top().join(format!("shared/errors/GR{digits}.md")).exists(),
                    "{document}: GR{digits} has no page"
                );
                found += 1;
            }
        }
    }
    assert!(found > 0);
}

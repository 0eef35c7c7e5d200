//! Pages from templates: every text in them is escaped, and the tool's own words
//! are asked for by key with `say`.

use super::{Language, Reader, Units};
use crate::report::visible;
use minijinja::syntax::SyntaxConfig;
use minijinja::value::{Kwargs, Serde};
use minijinja::{Environment, Error, State, UndefinedBehavior, Value, context};
use serde::Serialize;
use std::sync::LazyLock;

/// The templates of all pages, by name. Names end in `.html`, so that what is put
/// in is escaped.
const TEMPLATES: &[(&str, &str)] = &[
    ("base.html", include_str!("../pages/base.html")),
    ("compare-body.html", include_str!("../compare/compare-body.html")),
    ("compare-page.html", include_str!("../pages/compare.html")),
    ("rules/blocks.html", include_str!("../pages/rules/blocks.html")),
    ("rules/clause.html", include_str!("../pages/rules/clause.html")),
    ("rules/code.html", include_str!("../pages/rules/code.html")),
    ("rules/demand.html", include_str!("../pages/rules/demand.html")),
    ("rules/edition.html", include_str!("../pages/rules/edition.html")),
    ("rules/effect.html", include_str!("../pages/rules/effect.html")),
    ("rules/form.html", include_str!("../pages/rules/form.html")),
    ("rules/index.html", include_str!("../pages/rules/index.html")),
    ("rules/instrument.html", include_str!("../pages/rules/instrument.html")),
    ("rules/links.html", include_str!("../pages/rules/links.html")),
    ("rules/lines.html", include_str!("../pages/rules/lines.html")),
    ("rules/place.html", include_str!("../pages/rules/place.html")),
    ("rules/powers.html", include_str!("../pages/rules/powers.html")),
    ("rules/section.html", include_str!("../pages/rules/section.html")),
    ("rules/taken.html", include_str!("../pages/rules/taken.html")),
    ("rules/trail.html", include_str!("../pages/rules/trail.html")),
    ("rules/word.html", include_str!("../pages/rules/word.html")),
    ("rules/words.html", include_str!("../pages/rules/words.html")),
    ("compare.html", include_str!("../compare/compare.html")),
    ("paper.html", include_str!("../papers/paper.html")),
    ("answer.html", include_str!("../papers/answer.html")),
    ("plan_notes.html", include_str!("../papers/plan_notes.html")),
    ("detail.html", include_str!("../papers/detail.html")),
    ("materials.html", include_str!("../papers/materials.html")),
    ("work_split.html", include_str!("../papers/work_split.html")),
    ("checklist.html", include_str!("../papers/checklist.html")),
    ("notice.html", include_str!("../papers/notice.html")),
    ("owners_letter.html", include_str!("../papers/owners_letter.html")),
    ("job.html", include_str!("../pages/job.html")),
    ("map.html", include_str!("../pages/map.html")),
    ("missing.html", include_str!("../pages/missing.html")),
    ("parts.html", include_str!("../pages/parts.html")),
    ("ways.html", include_str!("../pages/ways.html")),
    ("verdict.html", include_str!("../pages/verdict.html")),
];

static TEMPLATES_READ: LazyLock<Environment<'static>> = LazyLock::new(|| {
    let mut all = Environment::new();
    all.set_undefined_behavior(UndefinedBehavior::Strict);
    if let Ok(syntax) = SyntaxConfig::builder().trim_blocks(true).lstrip_blocks(true).build() {
        all.set_syntax(syntax);
    }
    all.add_function("say", say);
    all.add_function("amount", |state: &State<'_, '_>, figure: String| reader(state).amount(&figure));
    all.add_filter("visible", |text: String| visible::lines(&text));
    all.add_filter("ended", |text: String| ended(&text));
    for (name, text) in TEMPLATES {
        // A test renders each; what cannot be read is an error where it is used.
        let _ = all.add_template(name, text);
    }
    all
});

/// A page of a template and what is put in; the template sees it as `it`, and the
/// reader as `language` and `units`.
///
/// # Errors
/// Where the template does not fit what is put in, which a test of the page shows.
pub(crate) fn render(name: &str, it: impl Serialize, reader: Reader) -> Result<String, Error> {
    let template = TEMPLATES_READ.get_template(name)?;
    template.render(context! {
        it => Value::from(Serde(it)),
        language => reader.language.tag(),
        units => reader.units.name(),
    })
}

/// A sentence with its full stop; one that closes with a question has its end already.
fn ended(text: &str) -> String {
    if text.ends_with(['?', '.', '!']) { text.to_owned() } else { format!("{text}.") }
}

fn reader(state: &State<'_, '_>) -> Reader {
    let found = |name| state.lookup(name).map(|value| value.to_string()).unwrap_or_default();
    Reader {
        language: Language::find(&found("language")).unwrap_or_default(),
        units: Units::find(&found("units")).unwrap_or_default(),
    }
}

fn say(state: &State<'_, '_>, key: String, parts: Kwargs) -> Result<String, Error> {
    let mut given: Vec<(String, String)> = Vec::new();
    for name in parts.args() {
        given.push((name.to_owned(), parts.get::<Value>(name)?.to_string()));
    }
    parts.assert_all_used()?;
    let given: Vec<(&str, &str)> = given.iter().map(|(name, part)| (&**name, &**part)).collect();
    Ok(reader(state).say_with(&key, &given))
}

#[cfg(test)]
mod tests {
    use super::ended;

    #[test]
    fn a_sentence_ends_once() {
        assert_eq!(ended("It is met"), "It is met.");
        assert_eq!(ended("Which tubing is it?"), "Which tubing is it?");
    }
}

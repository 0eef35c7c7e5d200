//! What the tool itself says to a reader, in the reader's language and units.
//!
//! The words stand in Fluent files, a pair an area: `en/AREA.ftl`, `es/AREA.ftl`.
//! Texts of rule files (titles, terms, summaries, prompts) stay as they were
//! published, and are never looked up here.

mod amounts;
mod answers;
pub(crate) mod facts;
mod files;
mod misread;
pub(crate) mod template;
#[cfg(test)]
#[expect(clippy::string_slice, reason = "a test may panic")]
mod tests;
mod texts;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use std::sync::LazyLock;

/// A language that the tool speaks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub(crate) enum Language {
    #[default]
    English,
    Spanish,
}

impl Language {
    /// Every one, the default first.
    pub(crate) const ALL: [Language; 2] = [Language::English, Language::Spanish];

    /// Its tag after BCP 47.
    pub(crate) fn tag(self) -> &'static str {
        match self {
            Language::English => "en",
            Language::Spanish => "es",
        }
    }

    /// The language with this tag.
    pub(crate) fn find(tag: &str) -> Option<Language> {
        Language::ALL.into_iter().find(|language| language.tag() == tag)
    }
}

/// In which units lengths are told.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub(crate) enum Units {
    /// Feet.
    #[default]
    Customary,
    /// Metres.
    Metric,
}

impl Units {
    /// Both, the default first.
    pub(crate) const ALL: [Units; 2] = [Units::Customary, Units::Metric];

    /// The name in a link.
    pub(crate) fn name(self) -> &'static str {
        match self {
            Units::Customary => "ft",
            Units::Metric => "m",
        }
    }

    /// The units with this name.
    pub(crate) fn find(name: &str) -> Option<Units> {
        Units::ALL.into_iter().find(|units| units.name() == name)
    }
}

/// For whom something is written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub(crate) struct Reader {
    pub(crate) language: Language,
    pub(crate) units: Units,
}

impl Reader {
    /// A sentence or a label. An unknown key comes back as it is; a test holds that
    /// there is none.
    pub(crate) fn say(self, key: &str) -> String {
        self.say_with(key, &[])
    }

    /// The same with named parts. A part of figures alone is a number, by which the
    /// words may be chosen.
    pub(crate) fn say_with(self, key: &str, parts: &[(&str, &str)]) -> String {
        let bundle = match self.language {
            Language::English => &*ENGLISH,
            Language::Spanish => &*SPANISH,
        };
        let Some(pattern) = bundle.get_message(key).and_then(|message| message.value()) else {
            return key.to_owned();
        };
        let mut given = FluentArgs::with_capacity(parts.len());
        for (name, part) in parts {
            let figures = !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
            let part = if figures { FluentValue::try_number(part) } else { FluentValue::from((*part).to_owned()) };
            given.set((*name).to_owned(), part);
        }
        bundle.format_pattern(pattern, Some(&given), &mut Vec::new()).into_owned()
    }
}

type Words = FluentBundle<FluentResource>;

static ENGLISH: LazyLock<Words> = LazyLock::new(|| words(Language::English));
static SPANISH: LazyLock<Words> = LazyLock::new(|| words(Language::Spanish));

fn words(language: Language) -> Words {
    let mut bundle = FluentBundle::new_concurrent(language.tag().parse().into_iter().collect());
    // Marks of direction around each part would show up in copied text.
    bundle.set_use_isolating(false);
    for area in files::AREAS {
        let text = match language {
            Language::English => area.english,
            Language::Spanish => area.spanish,
        };
        // What cannot be read of a file stands in the second half; a test reads all.
        let resource = FluentResource::try_new(text.to_owned()).unwrap_or_else(|(resource, _)| resource);
        bundle.add_resource_overriding(resource);
    }
    bundle
}

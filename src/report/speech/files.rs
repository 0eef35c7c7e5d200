//! The files in which the words stand.

/// The words of one area, in each language.
pub(super) struct Area {
    /// The beginning of all its keys; it owns the files of this name.
    #[cfg(test)]
    pub(super) name: &'static str,
    pub(super) english: &'static str,
    pub(super) spanish: &'static str,
}

macro_rules! area {
    ($name:literal) => {
        Area {
            #[cfg(test)]
            name: $name,
            english: include_str!(concat!("en/", $name, ".ftl")),
            spanish: include_str!(concat!("es/", $name, ".ftl")),
        }
    };
}

/// All areas, by name.
pub(super) const AREAS: &[Area] = &[
    area!("browse"),
    area!("compare"),
    area!("cures"),
    area!("effect"),
    area!("map"),
    area!("pages"),
    area!("papers"),
    area!("picture"),
    area!("screen"),
    area!("sheet"),
    area!("time-line"),
    area!("value"),
    area!("walk"),
];

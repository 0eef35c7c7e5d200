//! What people of the trade say, and the words of the glossary that they mean. Common
//! practice of the trade; nothing here says what a rule asks for.
//!
//! Names that a library does not have lead nowhere and are passed over.

use crate::report::speech::Reader;

/// What is to be asked back, since a saying means more than one thing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Hint {
    /// The color of a jacket is a hint and no listing.
    Color,
    /// Usually an appliance connector, which is no piping.
    Connector,
    /// The path by the appliance's circuit, which is no direct bond.
    Circuit,
    /// Grounding is another thing than bonding.
    Ground,
    /// Readings differ on whether it may land there.
    Disputed,
    /// The edition of the application, and no word on what must be disclosed.
    Vested,
    /// The customer's side of the meter, and not the supplier's.
    Meter,
}

impl Hint {
    pub(super) fn words(self, reader: Reader) -> String {
        match self {
            Hint::Color => reader.say("browse-hint-color"),
            Hint::Connector => reader.say("browse-hint-connector"),
            Hint::Circuit => reader.say("browse-hint-circuit"),
            Hint::Ground => reader.say("browse-hint-ground"),
            Hint::Disputed => reader.say("browse-hint-disputed"),
            Hint::Vested => reader.say("browse-hint-vested"),
            Hint::Meter => reader.say("browse-hint-meter"),
        }
    }
}

/// A saying in small letters, the names that it means, and what to ask back.
pub(super) type Saying = (&'static [&'static str], &'static [&'static str], Option<Hint>);

/// The sayings; several spellings of one stand together, Spanish ones among them.
pub(super) const SAYINGS: &[Saying] = &[
    (
        &["black iron", "black pipe", "hard pipe", "tubo negro", "hierro negro", "tubería negra"],
        &["steel", "rigid-pipe"],
        None,
    ),
    (&["yellow csst", "yellow stuff", "yellow", "amarillo"], &["csst", "plain"], Some(Hint::Color)),
    (&["black csst", "black stuff"], &["csst", "arc-resistant"], Some(Hint::Color)),
    (&["corrugated", "corrugado", "tubería corrugada"], &["csst"], None),
    (&["arj", "arc-resistant jacket", "forro resistente al arco"], &["arc-resistant"], None),
    (
        &["flex", "pigtail", "whip", "flex line", "manguera", "conector flexible"],
        &["appliance-connector"],
        Some(Hint::Connector),
    ),
    (
        &["ground the gas line", "ground the gas", "ground gas", "gas ground", "aterrizar el gas"],
        &["direct-bond"],
        Some(Hint::Ground),
    ),
    (
        &[
            "bond wire",
            "bonding wire",
            "bonding conductor",
            "bonding jumper",
            "bond",
            "bonding",
            "jumper",
            "puente de unión",
            "puente",
        ],
        &["jumper", "direct-bond"],
        None,
    ),
    (
        &["bonded at the furnace", "indirect bond", "egc", "green wire", "equipment ground", "cable verde"],
        &["appliance-circuit", "equipment-bond"],
        Some(Hint::Circuit),
    ),
    (
        &["number 6", "number six", "#6", "no. 6", "wire size", "gauge", "calibre", "awg", "kcmil"],
        &["jumper-size", "size"],
        None,
    ),
    (
        &["ft", "feet", "foot", "wire length", "pie", "pies", "largo del cable"],
        &["jumper-length", "length", "service-distance"],
        None,
    ),
    (&["amp", "amps", "amperes", "amperios"], &["service-rating", "energizing-circuit", "circuit"], None),
    (&["bond clamp", "bonding clamp", "pipe clamp", "ground clamp", "abrazadera"], &["clamp", "clamp-listing"], None),
    (&["ground rod", "rod", "varilla", "varilla de tierra"], &["rod", "electrode"], None),
    (&["ufer", "footing", "cimentación"], &["concrete-encased"], None),
    (
        &["gec", "ground wire", "tap the ground wire", "split bolt", "split-bolt"],
        &["electrode-conductor", "joint"],
        None,
    ),
    (&["ges", "electrode", "electrodo", "electrodo de puesta a tierra"], &["electrode", "electrodes"], None),
    (&["main panel", "load center", "service panel", "breaker box", "tablero principal"], &["service-enclosure"], None),
    (&["sub", "sub panel", "subpanel", "sub-panel", "subtablero"], &["subpanel-bar"], Some(Hint::Disputed)),
    (
        &["intersystem", "isbt", "intersystem bar", "little bridge", "intersystem bridge"],
        &["intersystem-terminal"],
        Some(Hint::Disputed),
    ),
    (&["cold water", "water line", "agua fría", "tubería de agua"], &["water-pipe"], Some(Hint::Disputed)),
    (&["neutral", "grounded conductor", "neutro"], &["service-neutral"], None),
    (&["meter", "meter set", "at the meter", "medidor"], &["meter", "attachment-position"], Some(Hint::Meter)),
    (&["pod", "point of delivery", "punto de entrega"], &["supplier-side", "attachment-position"], Some(Hint::Meter)),
    (&["manifold", "header", "múltiple"], &["manifold"], None),
    (&["regulator", "line regulator", "pounds-to-inches", "second-stage", "regulador"], &["regulator"], None),
    (
        &["grandfathered", "grandfather", "vested", "derecho adquirido"],
        &["retrofit", "application-date", "text-elected"],
        Some(Hint::Vested),
    ),
    (&["retrofit", "existing house", "casa existente"], &["retrofit", "existing-only"], None),
    (&["permit", "is it a permit item", "permiso"], &["permits", "permits-held"], None),
    (&["inspector", "inspection", "inspección"], &["inspection", "report"], None),
    (&["who can do it", "who may", "license", "licencia"], &["performer"], None),
    (
        &["lightning", "lps", "air terminal", "pararrayos", "rayo"],
        &["lightning-protection", "lightning-electrode"],
        None,
    ),
    (&["lp", "lp gas", "lpg", "tank gas", "gas lp", "gas propano"], &["propane"], None),
    (&["nat gas", "natural", "gas natural"], &["natural"], None),
    (&["townhome", "row house", "casa adosada"], &["townhouse"], None),
    (&["mobile home", "trailer", "hud home", "casa móvil"], &["manufactured-home"], None),
    (&["book instructions", "maker's instructions", "instrucciones"], &["product"], None),
    (&["splice", "empalme"], &["spliced", "splicing"], None),
    (&["conduit", "raceway", "armor", "tubo conduit", "canalización"], &["in-raceway", "protection"], None),
];

/// Every saying that a text is, or that stands in it as whole words.
pub(super) fn sayings(text: &str) -> impl Iterator<Item = (&'static str, &'static Saying)> {
    let text = text.to_lowercase();
    SAYINGS.iter().filter_map(move |saying| {
        let (spellings, _, _) = saying;
        let fits = |spelling: &&&str| {
            let mut rest = text.as_str();
            let mut begun = true;
            while let Some(at) = rest.find(**spelling) {
                let (before, from) = rest.split_at_checked(at)?;
                let behind = from.strip_prefix(**spelling)?;
                let free = |letter: Option<char>| !letter.is_some_and(char::is_alphanumeric);
                if (begun || !before.is_empty()) && free(before.chars().next_back()) && free(behind.chars().next()) {
                    return Some(());
                }
                begun = false;
                rest = behind;
            }
            None
        };
        // The longest spelling is the one that was meant.
        let found = spellings.iter().filter(|spelling| fits(spelling).is_some()).max_by_key(|spelling| spelling.len());
        found.map(|said| (*said, saying))
    })
}

//! Every page of the shipped library is there, is whole, and leads only to pages that
//! are there; what others wrote stays text.

mod find;
mod pages;
mod stands;

use super::{Missing, page};
use crate::report::pages::link::Link;
use crate::rules::Rules;
use crate::values::Date;
use std::collections::{BTreeMap, BTreeSet};

fn today() -> Date {
    Date::parse("2026-11-27").unwrap()
}

/// Pages by their address, each made once.
struct Walk<'r> {
    rules: &'r Rules,
    query: &'static str,
    pages: BTreeMap<String, String>,
}

/// A page by its path and query, as a server would ask for it.
fn at(rules: &Rules, path: &str, query: &str) -> Result<String, Missing> {
    let rest = path.strip_prefix("/rules").unwrap_or_else(|| panic!("{path} is none of this room"));
    let parts: Vec<String> = rest.split('/').filter(|part| !part.is_empty()).map(decoded).collect();
    let parts: Vec<&str> = parts.iter().map(String::as_str).collect();
    page(&parts, &Link::from(query), rules, today())
}

fn decoded(part: &str) -> String {
    let mut bytes = Vec::new();
    let mut rest = part.bytes();
    while let Some(byte) = rest.next() {
        if byte == b'%' {
            let pair = [rest.next().unwrap(), rest.next().unwrap()];
            bytes.push(u8::from_str_radix(std::str::from_utf8(&pair).unwrap(), 16).unwrap());
        } else {
            bytes.push(byte);
        }
    }
    String::from_utf8(bytes).unwrap()
}

/// An attribute as a browser reads it.
fn unescaped(text: &str) -> String {
    text.replace("&#x2f;", "/")
        .replace("&#x27;", "'")
        .replace("&quot;", "\"")
        .replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&amp;", "&")
}

/// The values of an attribute, in the order of the page.
fn attributes(html: &str, name: &str) -> Vec<String> {
    let lead = format!(" {name}=\"");
    html.match_indices(&lead).map(|(at, _)| unescaped(html[at + lead.len()..].split('"').next().unwrap())).collect()
}

/// Holds that every tag is closed in its turn, that headings leave no rank out, that ids
/// are unique, and that every reference between parts of the page is met.
fn whole(address: &str, html: &str) {
    const VOID: [&str; 6] = ["meta", "link", "input", "br", "hr", "!DOCTYPE"];
    let mut open: Vec<&str> = Vec::new();
    let mut rank = 0;
    for piece in html.split('<').skip(1) {
        let (tag, _) = piece.split_once('>').unwrap_or_else(|| panic!("{address}: `<{piece}` is not closed"));
        let name = tag.split([' ', '\n']).next().unwrap();
        assert!(tag.matches('"').count().is_multiple_of(2), "{address}: <{tag}>");
        if let Some(name) = name.strip_prefix('/') {
            assert_eq!(open.pop(), Some(name), "{address}: </{name}> closes another");
        } else if !VOID.contains(&name) && !tag.ends_with('/') {
            open.push(name);
            if let Some(own) = name.strip_prefix('h').and_then(|rank| rank.parse::<usize>().ok()) {
                assert!(own <= rank + 1, "{address}: <{name}> behind a heading of rank {rank}");
                rank = own;
            }
        }
    }
    assert!(open.is_empty(), "{address}: {open:?} stay open");
    let ids = attributes(html, "id");
    let known: BTreeSet<&String> = ids.iter().collect();
    assert_eq!(ids.len(), known.len(), "{address}: an id stands twice");
    for name in ["aria-labelledby", "aria-describedby", "for"] {
        for wanted in attributes(html, name).iter().flat_map(|list| list.split(' ')) {
            assert!(known.contains(&wanted.to_owned()), "{address}: {name} {wanted} is not there");
        }
    }
    assert_eq!(html.matches("<h1").count(), 1, "{address}");
    assert!(!attributes(html, "style").iter().any(|_| true) && !html.contains("<script"), "{address}");
    assert!(html.matches("<table").count() == html.matches("<caption").count(), "{address}: a table without a caption");
    let key = html.split("browse-").nth(1).map(|key| key.chars().take(20).collect::<String>());
    assert_eq!(key, None, "{address}: a key and no words");
}

impl Walk<'_> {
    /// Follows every link from the first page; effects are left out, since each takes
    /// long, and are looked at by themselves.
    fn walk(&mut self) {
        let mut waiting = vec!["/rules".to_owned()];
        let mut wanted: Vec<(String, String, String)> = Vec::new();
        while let Some(path) = waiting.pop() {
            if self.pages.contains_key(&path) || path.ends_with("/effect") {
                continue;
            }
            let html = at(self.rules, &path, self.query).unwrap_or_else(|told| panic!("{path}: {told:?}"));
            whole(&path, &html);
            for href in attributes(&html, "href") {
                let (bare, fragment) = href.split_once('#').unwrap_or((&href, ""));
                let target = bare.split('?').next().unwrap();
                if target.is_empty() {
                    wanted.push((path.clone(), path.clone(), fragment.to_owned()));
                } else if target == "/rules" || target.starts_with("/rules/") {
                    let another = bare.contains("%7Elang=en");
                    assert!(bare.contains(self.query) || another, "{path}: {href} loses what the link carries");
                    waiting.push(target.to_owned());
                    wanted.push((path.clone(), target.to_owned(), fragment.to_owned()));
                }
            }
            self.pages.insert(path, html);
        }
        for (from, path, fragment) in wanted {
            if !fragment.is_empty() {
                let there = format!(" id=\"{fragment}\"");
                assert!(self.pages[&path].contains(&there), "{from} leads to {path}#{fragment}");
            }
        }
    }
}

/// Writes a page to the folder that `BROWSE_PAGES` names, to be looked at in a browser.
fn kept(name: &str, html: &str) {
    if let Ok(folder) = std::env::var("BROWSE_PAGES") {
        let name = name.trim_start_matches('/').replace(['/', '?', '&', ' '], "_");
        let style = format!("<style>{}</style>", crate::report::pages::STYLE);
        let html = html.replace("<link rel=\"stylesheet\" href=\"/static/counter.css\">", &style);
        std::fs::write(format!("{folder}/{name}.html"), html).unwrap();
    }
}

fn walked<'r>(rules: &'r Rules, query: &'static str) -> Walk<'r> {
    let mut walk = Walk { rules, query, pages: BTreeMap::new() };
    walk.walk();
    walk
}

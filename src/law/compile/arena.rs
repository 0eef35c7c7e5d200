//! Conditions as numbers: equal ones are kept once, and what can be told at once
//! (nothing and something, a thing and its contrary) is.

use crate::law::model::{CondId, Node};
use rustc_hash::FxHashMap;

/// The conditions of one place's law while it is made.
#[derive(Debug)]
pub(crate) struct Arena {
    nodes: Vec<Node>,
    index: FxHashMap<Node, CondId>,
}

impl Arena {
    /// An arena with the two constant conditions.
    pub(crate) fn new() -> Arena {
        let mut arena = Arena { nodes: Vec::new(), index: FxHashMap::default() };
        arena.put(Node::False);
        arena.put(Node::True);
        arena
    }

    /// The node with this number.
    pub(crate) fn node(&self, id: CondId) -> Option<&Node> {
        self.nodes.get(id.0 as usize)
    }

    /// All nodes, given away.
    pub(crate) fn into_nodes(self) -> Vec<Node> {
        self.nodes
    }

    /// The number of a node; a new one where it is not kept yet.
    pub(crate) fn put(&mut self, node: Node) -> CondId {
        if let Some(id) = self.index.get(&node) {
            return *id;
        }
        let id = CondId(self.nodes.len() as u32);
        self.nodes.push(node.clone());
        self.index.insert(node, id);
        id
    }

    /// The contrary of a condition.
    pub(crate) fn not(&mut self, of: CondId) -> CondId {
        match self.node(of) {
            Some(Node::False) => CondId::TRUE,
            Some(Node::True) => CondId::FALSE,
            Some(Node::Not(inner)) => *inner,
            _ => self.put(Node::Not(of)),
        }
    }

    /// All of these hold.
    pub(crate) fn and(&mut self, parts: impl IntoIterator<Item = CondId>) -> CondId {
        self.join(parts, true)
    }

    /// One of these holds at least.
    pub(crate) fn or(&mut self, parts: impl IntoIterator<Item = CondId>) -> CondId {
        self.join(parts, false)
    }

    fn join(&mut self, parts: impl IntoIterator<Item = CondId>, all: bool) -> CondId {
        let (neutral, absorbing) = if all { (CondId::TRUE, CondId::FALSE) } else { (CondId::FALSE, CondId::TRUE) };
        let mut flat: Vec<CondId> = Vec::new();
        for part in parts {
            match (self.node(part), all) {
                _ if part == neutral => {}
                _ if part == absorbing => return absorbing,
                (Some(Node::And(inner)), true) | (Some(Node::Or(inner)), false) => flat.extend(inner.iter().copied()),
                _ => flat.push(part),
            }
        }
        flat.sort();
        flat.dedup();
        match flat.as_slice() {
            [] => neutral,
            [one] => *one,
            _ => {
                // A fact's test and its contrary agree on every completion, but an
                // unknown answer may leave both unknown: keep those.
                let contrary = flat.iter().any(|part| match self.node(*part) {
                    Some(Node::Not(inner)) => flat.binary_search(inner).is_ok() && self.reads_facts_only(*inner),
                    _ => false,
                });
                if contrary {
                    return absorbing;
                }
                let parts = flat.into_boxed_slice();
                self.put(if all { Node::And(parts) } else { Node::Or(parts) })
            }
        }
    }

    /// Whether a condition reads no answer.
    pub(crate) fn reads_facts_only(&self, id: CondId) -> bool {
        match self.node(id) {
            Some(Node::Not(inner)) => self.reads_facts_only(*inner),
            Some(Node::And(parts) | Node::Or(parts)) => parts.iter().all(|part| self.reads_facts_only(*part)),
            Some(Node::Answer { .. }) => false,
            _ => true,
        }
    }
}

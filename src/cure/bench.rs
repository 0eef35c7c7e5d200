//! The jobs that can be made of one job by pulling levers, and what each question is
//! with any of them, at one place or at several.

use super::levers::{Lever, Levers};
use super::limits::STEPS;
use crate::job::model::{Given, Job};
use crate::verdict::board::{Board, NO_PRICE, Price, Prices, Sheet, Turn, together};
use crate::verdict::cone::Cone;
use crate::verdict::paths::Path;
use crate::verdict::trouble::Trouble;
use crate::verdict::{Matter, Memo, TooMany};
use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::sync::Arc;

/// Changes: a lever by its number, and the cell into which it is put.
pub(crate) type Moves = BTreeMap<usize, usize>;

/// What must hold of a changed job.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(crate) enum Goal {
    /// Nothing is amiss with the question any more.
    Mended { board: usize, question: usize },
    /// Nothing heavier than missing facts is amiss with the question.
    Lightened { board: usize, question: usize },
    /// Nothing heavier is amiss with the question that was not so before.
    Spared { board: usize, question: usize },
    /// The question is asked still, or nothing heavier than missing facts is amiss with
    /// the question `gate`, on which it turns whether it is asked: what nobody has settled
    /// does not make another question idle.
    Gated { board: usize, question: usize, gate: usize },
    /// A code governs the subject still.
    Governed { board: usize, number: usize },
}

/// The questions at one place that some lever bears on.
struct Table<'a, 'm> {
    board: Board<'a, 'm>,
    /// By the fact's number the lever.
    levers: Vec<Option<usize>>,
    sheets: BTreeMap<usize, Sheet>,
    governed: BTreeMap<usize, Sheet>,
}

/// All that is worked out of one job, or of one job at several places.
pub(crate) struct Bench<'a, 'm> {
    tables: Vec<Table<'a, 'm>>,
    pub(crate) levers: Vec<Lever>,
    /// For every lever its cells by those that no question tells apart, each by its first cell.
    class: Vec<Vec<usize>>,
    /// What single changes there are.
    pub(crate) steps: Vec<Step>,
    before: HashMap<(usize, usize), Trouble>,
    seen: HashMap<(Goal, Vec<(usize, usize)>), bool>,
    looks: HashMap<Goal, BTreeSet<usize>>,
}

/// One kind of change: a lever, or all entries that say the same, put alike.
#[derive(Clone, Debug)]
pub(crate) struct Step {
    /// Whether it turns several entries at once.
    pub(crate) several: bool,
    pub(crate) turns: Vec<Vec<(usize, usize)>>,
}

/// The job of a matter with every lever left open.
pub(crate) fn opened(job: &Job, levers: &Levers, matter: &Matter<'_>) -> Job {
    let mut open = job.clone();
    for lever in &levers.all {
        put(&mut open, lever.path, Given::Unknown, matter);
    }
    open
}

/// Says a fact of a job anew.
pub(crate) fn put(job: &mut Job, path: Path, value: Given, matter: &Matter<'_>) {
    let slot = match path {
        Path::Fact(field) => job.values.get_mut(usize::from(field.0)),
        Path::Attribute { group, entry, field } => {
            let column = matter.lexicon.field(field).map(|known| usize::from(known.column));
            let row = job.lists.get_mut(usize::from(group.0)).and_then(|list| list.entries.get_mut(entry));
            row.zip(column).and_then(|(row, column)| row.get_mut(column))
        }
        _ => None,
    };
    if let Some(slot) = slot {
        *slot = value;
    }
}

/// What all questions and conditions of a place read that a lever can bear on.
pub(crate) fn whole_cone(matter: &Matter<'_>) -> Cone {
    let questions = (0..matter.law.questions.len()).map(|at| matter.plan.cone(matter.law, &matter.lexicon, at));
    let governed: Vec<Cone> = matter
        .law
        .governed
        .iter()
        .map(|(_, cond)| Cone::of_condition(matter.plan, matter.law, &matter.lexicon, *cond))
        .collect();
    together(questions.chain(&governed))
}

impl Table<'_, '_> {
    fn lever(&self, variable: u32) -> Option<usize> {
        self.levers.get(variable as usize).copied().flatten()
    }
}

impl<'a, 'm> Bench<'a, 'm> {
    /// Sets everything up. Each matter has its levers left open, and comes with what is
    /// amiss with each of its questions as the job stands.
    ///
    /// # Errors
    /// Where there is too much to be told apart.
    pub(crate) fn new(
        matters: &'m [(Matter<'a>, Vec<Trouble>)],
        memos: &'m mut [Memo],
        levers: Levers,
    ) -> Result<Bench<'a, 'm>, TooMany> {
        let instead: BTreeMap<Path, Arc<[Given]>> =
            levers.all.iter().map(|lever| (lever.path, lever.cells.clone().into())).collect();
        let mut bench = Bench {
            tables: Vec::new(),
            class: Vec::new(),
            levers: levers.all,
            steps: Vec::new(),
            before: HashMap::new(),
            seen: HashMap::new(),
            looks: HashMap::new(),
        };
        for (number, ((matter, troubles), memo)) in matters.iter().zip(memos).enumerate() {
            let touched = |cone: &Cone| bench.levers.iter().any(|lever| reads(cone, lever));
            let of = |question: usize| matter.plan.cone(matter.law, &matter.lexicon, question);
            let questions: Vec<usize> =
                (0..matter.law.questions.len()).filter(|question| touched(of(*question))).collect();
            let conds = matter.law.governed.iter().enumerate().map(|(at, (_, cond))| (at, *cond));
            let conds: Vec<_> = conds
                .map(|(at, cond)| (at, cond, Cone::of_condition(matter.plan, matter.law, &matter.lexicon, cond)))
                .filter(|(_, _, cone)| touched(cone))
                .collect();
            let cone =
                together(questions.iter().map(|question| of(*question)).chain(conds.iter().map(|(_, _, cone)| cone)));
            let mut board = Board::new(matter, memo, &cone, &instead, STEPS)?;
            let mut sheets = BTreeMap::new();
            for question in questions {
                sheets.insert(question, board.question(question)?);
            }
            let mut governed = BTreeMap::new();
            for (at, cond, _) in conds {
                governed.insert(at, board.condition(cond)?);
            }
            let mut numbers: Vec<Option<usize>> = Vec::new();
            for (at, lever) in bench.levers.iter().enumerate() {
                let Some(variable) = board.find(lever.path).map(|variable| variable as usize) else { continue };
                if numbers.len() <= variable {
                    numbers.resize(variable + 1, None);
                }
                if let Some(slot) = numbers.get_mut(variable) {
                    *slot = Some(at);
                }
            }
            for (question, trouble) in troubles.iter().enumerate() {
                bench.before.insert((number, question), *trouble);
            }
            bench.tables.push(Table { board, levers: numbers, sheets, governed });
        }
        bench.classes();
        bench.make_steps();
        Ok(bench)
    }

    /// Takes the cells of a lever together that no question tells apart.
    fn classes(&mut self) {
        for (number, lever) in self.levers.iter().enumerate() {
            let mut followed: Vec<Vec<Sheet>> = vec![Vec::new(); lever.cells.len()];
            for table in &self.tables {
                let Some(variable) = table.board.find(lever.path).filter(|at| table.lever(*at) == Some(number)) else {
                    continue;
                };
                for sheet in table.sheets.values().chain(table.governed.values()) {
                    for branches in table.board.places(*sheet, variable) {
                        for (cell, branch) in followed.iter_mut().zip(branches) {
                            cell.push(branch);
                        }
                    }
                }
            }
            let first = |cell: usize| followed.iter().position(|other| Some(other) == followed.get(cell));
            let class = (0..lever.cells.len()).map(|cell| first(cell).unwrap_or(cell)).collect();
            self.class.push(class);
        }
    }

    /// The first cell of the class of a cell.
    fn class_of(&self, lever: usize, cell: usize) -> usize {
        self.class.get(lever).and_then(|class| class.get(cell)).copied().unwrap_or(cell)
    }

    /// The cells that no question tells from this one.
    pub(crate) fn alike(&self, lever: usize, cell: usize) -> Vec<usize> {
        let class = self.class_of(lever, cell);
        let count = self.levers.get(lever).map_or(0, |lever| lever.cells.len());
        (0..count).filter(|cell| self.class_of(lever, *cell) == class).collect()
    }

    /// Where a lever can be put: a cell for each class but that of what the job says.
    fn turns(&self, lever: usize) -> Vec<usize> {
        let Some(known) = self.levers.get(lever) else { return Vec::new() };
        let own = known.cell.map(|cell| self.class_of(lever, cell));
        let first = (0..known.cells.len()).filter(|cell| self.class_of(lever, *cell) == *cell);
        let all: Vec<usize> = first.filter(|cell| Some(*cell) != own).collect();
        // A fact whose every value does the same is not worth to be said.
        if own.is_none() && all.len() < 2 {
            return Vec::new();
        }
        let offered = |cell: &usize| self.alike(lever, *cell).into_iter().any(|like| known.offers(like));
        all.into_iter().filter(offered).collect()
    }

    fn make_steps(&mut self) {
        let mut like: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for (number, lever) in self.levers.iter().enumerate() {
            if matches!(lever.path, Path::Attribute { .. }) {
                like.entry(lever.kin).or_default().push(number);
            }
        }
        let mut steps = Vec::new();
        for members in like.values().filter(|members| members.len() > 1) {
            let cells = members.first().and_then(|first| self.levers.get(*first)).map_or(0, |lever| lever.cells.len());
            let mut turns: Vec<Vec<(usize, usize)>> = Vec::new();
            for cell in 0..cells {
                let turn: Vec<(usize, usize)> = members
                    .iter()
                    .map(|lever| (*lever, self.class_of(*lever, cell)))
                    .filter(|(lever, class)| self.turns(*lever).contains(class))
                    .collect();
                if turn.len() > 1 && !turns.contains(&turn) {
                    turns.push(turn);
                }
            }
            steps.push(Step { several: true, turns });
        }
        for lever in 0..self.levers.len() {
            let turns = self.turns(lever).into_iter().map(|cell| vec![(lever, cell)]).collect();
            steps.push(Step { several: false, turns });
        }
        steps.retain(|step| !step.turns.is_empty());
        self.steps = steps;
    }

    /// What must hold beside what is to be mended: for every question that a lever
    /// bears on, and for every subject that must be governed.
    pub(crate) fn beside(&self) -> Vec<Goal> {
        let mut goals = Vec::new();
        for (board, table) in self.tables.iter().enumerate() {
            goals.extend(table.sheets.keys().map(|question| Goal::Spared { board, question: *question }));
            goals.extend(table.governed.keys().map(|number| Goal::Governed { board, number: *number }));
        }
        goals
    }

    fn sheet(&self, goal: Goal) -> Option<(&Table<'a, 'm>, Sheet)> {
        let (board, number, governed) = match goal {
            Goal::Mended { board, question }
            | Goal::Lightened { board, question }
            | Goal::Gated { board, question, .. }
            | Goal::Spared { board, question } => (board, question, false),
            Goal::Governed { board, number } => (board, number, true),
        };
        let table = self.tables.get(board)?;
        let sheets = if governed { &table.governed } else { &table.sheets };
        Some((table, *sheets.get(&number)?))
    }

    fn before(&self, board: usize, question: usize) -> Trouble {
        self.before.get(&(board, question)).copied().unwrap_or_default()
    }

    fn turn(&self, table: &Table<'a, 'm>, variable: u32, moves: &Moves) -> Turn {
        let Some(lever) = table.lever(variable) else { return Turn::All };
        let cell = moves.get(&lever).copied().or_else(|| self.levers.get(lever)?.cell);
        cell.map_or(Turn::All, Turn::Cell)
    }

    /// The levers that a goal looks at.
    pub(crate) fn looks(&mut self, goal: Goal) -> BTreeSet<usize> {
        if let Some(known) = self.looks.get(&goal) {
            return known.clone();
        }
        let mut looked: BTreeSet<usize> = self.sheet(goal).map_or_else(BTreeSet::new, |(table, sheet)| {
            table.board.looks_at(sheet).iter().filter_map(|variable| table.lever(*variable)).collect()
        });
        if let Goal::Gated { board, gate, .. } = goal {
            looked.extend(self.looks(Goal::Lightened { board, question: gate }));
        }
        self.looks.insert(goal, looked.clone());
        looked
    }

    /// Whether a goal is reached by these changes.
    pub(crate) fn reached(&mut self, goal: Goal, moves: &Moves) -> bool {
        let looks = self.looks(goal);
        let key: Vec<(usize, usize)> =
            moves.iter().filter(|(lever, _)| looks.contains(lever)).map(|(lever, cell)| (*lever, *cell)).collect();
        if let Some(known) = self.seen.get(&(goal, key.clone())) {
            return *known;
        }
        let reached = self.look(goal, moves);
        self.seen.insert((goal, key), reached);
        reached
    }

    fn look(&self, goal: Goal, moves: &Moves) -> bool {
        let Some((table, sheet)) = self.sheet(goal) else {
            // No lever bears on it, so that it stays as it was.
            return match goal {
                Goal::Mended { board, question } => self.before(board, question).none(),
                Goal::Lightened { board, question } => !self.before(board, question).heavy(),
                // No lever bears on whether it is asked either.
                Goal::Gated { .. } | Goal::Spared { .. } | Goal::Governed { .. } => true,
            };
        };
        let ends = table.board.ends(sheet, &|variable| self.turn(table, variable, moves));
        let trouble = |question: usize| table.board.trouble(question, &ends);
        match goal {
            Goal::Mended { question, .. } => !ends.is_empty() && trouble(question).none(),
            Goal::Lightened { question, .. } => !ends.is_empty() && !trouble(question).heavy(),
            Goal::Gated { board, gate, .. } => {
                ends.iter().any(|end| table.board.asks(*end))
                    || self.look(Goal::Lightened { board, question: gate }, moves)
            }
            Goal::Spared { board, question } => {
                !ends.is_empty() && !trouble(question).worse_than(self.before(board, question))
            }
            Goal::Governed { .. } => {
                let as_it_stands = table.board.ends(sheet, &|variable| self.turn(table, variable, &Moves::new()));
                !Board::fails(&ends) || Board::fails(&as_it_stands)
            }
        }
    }

    /// The least number of further changes by which a goal could be reached, each lever
    /// at its own cost, never told too high; [`NO_PRICE`] where there is no way at all.
    /// Some turns may be left out of account.
    pub(crate) fn least(
        &self,
        goal: Goal,
        moves: &Moves,
        cost: &dyn Fn(usize) -> Option<u32>,
        without: &BTreeSet<(usize, usize)>,
    ) -> u32 {
        let Some((table, sheet)) = self.sheet(goal) else {
            return if self.look(goal, moves) { 0 } else { NO_PRICE };
        };
        let price = |variable: u32| {
            let turn = self.turn(table, variable, moves);
            match table.lever(variable).filter(|lever| !moves.contains_key(lever)).and_then(cost) {
                Some(cost) => Price::Free(turn, cost),
                None => Price::Fixed(turn),
            }
        };
        let offered = |variable: u32, cell: usize| {
            without.is_empty()
                || table.lever(variable).is_some_and(|lever| !without.contains(&(lever, self.class_of(lever, cell))))
        };
        let prices = Prices { price: &price, offered: &offered };
        let least = |passes: &dyn Fn(u32) -> bool, all: bool| table.board.least(sheet, &prices, passes, all);
        let spared = |question: usize, before: Trouble| {
            let alone = |end: u32| table.board.alone(question, end);
            let some = |kind: &dyn Fn(Trouble) -> bool| {
                if kind(before) { 0 } else { least(&|end| !kind(alone(end)), false) }
            };
            some(&|trouble| trouble.refer).max(some(&|trouble| trouble.conflict)).max(some(&|trouble| trouble.not_met))
        };
        match goal {
            Goal::Mended { .. } => least(&|end| table.board.passes(end, false), true)
                .min(least(&|end| table.board.passes(end, true), true)),
            Goal::Lightened { question, .. } => spared(question, Trouble::default()),
            Goal::Gated { board, gate, .. } => least(&|end| table.board.asks(end), false).min(self.least(
                Goal::Lightened { board, question: gate },
                moves,
                cost,
                without,
            )),
            Goal::Spared { board, question } => spared(question, self.before(board, question)),
            Goal::Governed { .. } => 0,
        }
    }
}

/// Whether a cone reads what a lever changes.
fn reads(cone: &Cone, lever: &Lever) -> bool {
    match lever.path {
        Path::Fact(field) => cone.facts.contains_key(&field),
        Path::Attribute { group, field, .. } => {
            cone.lists.get(&group).is_some_and(|list| list.attributes.contains_key(&field))
        }
        _ => false,
    }
}

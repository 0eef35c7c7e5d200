//! What must hold of every verdict, on generated worlds too large to try out.

use super::generate;
use super::world::{FACTS, HOT, World};
use crate::glossary::model::{FieldId, Order, Shape};
use crate::job::model::Given;
use crate::law::model::{Effect, Node};
use crate::values::Terms;
use crate::verdict::found::{Found, State};
use crate::verdict::{Matter, Plan, Scratch};
use proptest::prelude::*;

fn weigh(world: &World) -> Vec<Found> {
    let lexicon = world.lexicon();
    let plan = Plan::new(&world.law, &lexicon);
    let mut scratch = Scratch::default();
    scratch.weigh(&Matter { plan: &plan, law: &world.law, lexicon, job: &world.job });
    scratch.found
}

/// A value for an unknown fact that is no date.
fn statement(world: &World, field: FieldId, draw: u16) -> Option<Given> {
    let donor = generate::world(&[draw; 64]);
    let value = donor.job.values[usize::from(field.0)].clone();
    Some(match world.fields[usize::from(field.0)].shape {
        Shape::Date => return None,
        Shape::YesNo => Given::Term(draw % 2),
        Shape::Choice(_) => Given::Term(draw % 3),
        Shape::Several(_) => Given::Set(Terms(u128::from(draw % 8))),
        Shape::Name => Given::Name(["acorn", "oak", "other"][usize::from(draw % 3)].into()),
        Shape::Code => Given::Name(["AA", "CC"][usize::from(draw % 2)].into()),
        _ if value != Given::Unknown => value,
        _ => return None,
    })
}

/// The loosest and the strictest that a question comes to, where nothing is referred.
fn ends(found: &Found) -> Option<(Vec<u128>, Vec<u128>)> {
    match (&found.between, &found.value) {
        _ if found.may_refer || found.bounds_only => None,
        (Some((low, high)), _) => Some((low.as_slice().to_vec(), high.as_slice().to_vec())),
        (None, Some(value)) if found.state != State::Referred => {
            Some((value.as_slice().to_vec(), value.as_slice().to_vec()))
        }
        _ => None,
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, max_global_rejects: 1 << 20, ..ProptestConfig::default() })]

    #[test]
    fn stating_a_fact_never_opens_what_was_settled(
        numbers in prop::collection::vec(any::<u16>(), 0..700),
        field in 3..FACTS,
        draw: u16,
    ) {
        let mut world = generate::world(&numbers);
        let place = usize::from(field);
        prop_assume!(world.job.values[place] == Given::Unknown && FieldId(field) != HOT);
        let Some(value) = statement(&world, FieldId(field), draw) else { return Ok(()) };
        let before = weigh(&world);
        world.job.values[place] = value;
        for (before, after) in before.iter().zip(weigh(&world)) {
            if matches!(before.state, State::Settled | State::Silent) {
                // What may reach may turn out not to.
                prop_assert!(matches!(after.state, State::Settled | State::Silent), "{:?}", after);
                prop_assert_eq!(&before.value, &after.value);
            } else if before.state != State::Open {
                prop_assert_ne!(after.state, State::Open);
            }
        }
    }

    #[test]
    fn a_further_demand_never_makes_an_answer_looser(
        numbers in prop::collection::vec(any::<u16>(), 0..700),
        question in 0usize..9,
        which: prop::sample::Index,
        guard: prop::sample::Index,
    ) {
        let mut world = generate::world(&numbers);
        prop_assume!(!world.law.nodes.iter().any(|node| matches!(node, Node::Answer { .. })));
        let own: Vec<usize> = world.law.questions[question].whole.iter().map(|id| id.0 as usize).collect();
        prop_assume!(!own.is_empty());
        let before = weigh(&world);
        // A copy of one of its demands, under the guard of any provision.
        let mut further = world.law.provisions[own[which.index(own.len())]].clone();
        prop_assume!(matches!(further.effect, Effect::Demand(_)));
        let from = world.law.provisions[guard.index(world.law.provisions.len())].clone();
        (further.reach, further.guard) = (from.reach, from.guard);
        world.law.provisions.push(further);
        let id = crate::law::model::ProvisionId(world.law.provisions.len() as u32 - 1);
        world.law.questions[question].whole.push(id);
        let after = weigh(&world);
        let (Some(old), Some(new)) = (ends(&before[question]), ends(&after[question])) else { return Ok(()) };
        let order = &world.questions[question].order;
        let stricter = |new: &[u128], old: &[u128]| {
            new.iter().zip(old).all(|(new, old)| match order {
                Order::Only(_) => new & old == *new,
                Order::AllOf(_) => new | old == *new,
                _ => new >= old,
            })
        };
        prop_assert!(stricter(&new.0, &old.0) && stricter(&new.1, &old.1), "{:?} after {:?}", new, old);
    }
}

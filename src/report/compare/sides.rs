//! Which job stands in which column: the pairs of places and days, each with the job as that
//! place knows it on that day.

use crate::glossary::model::PlaceId;
use crate::job::model::Job;
use crate::job::{Defaults, Desk, JobProblem, Left, moved};
use crate::values::Date;

/// The job of a column.
#[derive(Clone, Debug)]
pub(crate) struct Side {
    pub(crate) job: Job,
    /// What the job says and the place does not know.
    pub(crate) left: Vec<Left>,
}

/// What is compared.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Axes<'a> {
    /// The places that stand instead of the job's own; empty for the job's own alone.
    pub(crate) places: &'a [PlaceId],
    /// The days of all dates that the job leaves unsaid; empty for the job's own alone.
    pub(crate) dates: &'a [Date],
}

impl Axes<'_> {
    /// How many columns these are.
    pub(crate) fn columns(&self) -> usize {
        self.places.len().max(1).saturating_mul(self.dates.len().max(1))
    }
}

/// The first of several places or days that stands twice.
pub(crate) fn twice<T: PartialEq>(all: &[T]) -> Option<&T> {
    all.iter().enumerate().find(|(at, one)| all.iter().take(*at).any(|before| before == *one)).map(|(_, one)| one)
}

/// The sides, place by place and within a place day by day.
///
/// `read` reads the job with what stands for things unsaid, and `names_its_place` tells whether
/// the job says where it is. One that does not is read by the words of the first of the places
/// that knows all of them. `told` words what is wrong with a job at another place.
///
/// # Errors
/// Those of reading, and dates that contradict what the job says.
pub(crate) fn sides<E>(
    axes: Axes<'_>,
    defaults: Defaults,
    names_its_place: bool,
    desk: Desk<'_>,
    mut read: impl FnMut(&Defaults) -> Result<Job, E>,
    told: impl Fn(Vec<JobProblem>) -> E,
) -> Result<Vec<Side>, E> {
    let homes: Vec<Option<PlaceId>> = if names_its_place || axes.places.is_empty() {
        vec![defaults.place]
    } else {
        axes.places.iter().map(|place| Some(*place)).collect()
    };
    let days: Vec<Option<Date>> =
        if axes.dates.is_empty() { vec![defaults.date] } else { axes.dates.iter().map(|day| Some(*day)).collect() };
    let mut jobs: Vec<(Job, Option<Date>)> = Vec::with_capacity(days.len());
    for day in days {
        let mut first: Option<E> = None;
        let found = homes.iter().find_map(|home| match read(&Defaults { place: *home, date: day }) {
            Ok(job) => Some(job),
            Err(problem) => {
                first.get_or_insert(problem);
                None
            }
        });
        match (found, first) {
            (Some(job), _) => jobs.push((job, day)),
            (None, Some(problem)) => return Err(problem),
            (None, None) => return Err(told(Vec::new())),
        }
    }
    if axes.places.is_empty() {
        return Ok(jobs.into_iter().map(|(job, _)| Side { job, left: Vec::new() }).collect());
    }
    let mut all = Vec::with_capacity(axes.places.len() * jobs.len());
    for place in axes.places {
        for (job, day) in &jobs {
            let there = moved(job, *place, *day, desk).map_err(&told)?;
            all.push(Side { job: there.job, left: there.left });
        }
    }
    Ok(all)
}

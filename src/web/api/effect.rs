//! `POST /api/effect`: what another place or another day answers otherwise.

use super::super::body::{self, Media};
use super::super::problem::Problem;
use super::super::query::{day, place};
use super::super::state::Shared;
use super::super::work::work;
use super::json;
use crate::report::effect::{Account, Between, Frame};
use crate::report::finding::{Files, Finding, Spot};
use crate::report::speech::Reader;
use crate::review::effect::Side;
use crate::rules::Rules;
use crate::syntax::codes;
use crate::values::Date;
use crate::verdict::survey::Window;
use axum::body::Body;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode};
use axum::response::Response;
use serde::Deserialize;
use std::collections::HashMap;
use utoipa::ToSchema;

/// What is compared: a place with another, or the place on two days.
#[derive(Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
#[schema(as = EffectAsked)]
pub(crate) struct Asked {
    /// The place of the jobs.
    #[schema(example = "merrin")]
    place: String,
    /// Another place, whose answers are held against those of the first; either this or `dates`.
    #[schema(example = "osier")]
    against: Option<String>,
    /// Two days: jobs all of whose dates are the first are held against the same jobs on the second.
    #[schema(schema_with = super::super::openapi::two_days)]
    dates: Option<[String; 2]>,
    /// With `against`: look only at jobs whose dates are this day or later.
    #[schema(format = Date)]
    from: Option<String>,
    /// With `against`: look only at jobs whose dates are not after this day.
    #[schema(format = Date)]
    through: Option<String>,
}

/// Every kind of job whose answer is another there, or then, in words, with a job that shows it
///
/// The same as `groundrule effect --as json` with `--against` or with `--dates`.
#[utoipa::path(post, path = "/api/effect", operation_id = "effect", tag = "rules",
    request_body(description = "What is compared", content = Asked,
        example = json!({ "place": "merrin", "dates": ["2018-06-01", "2024-03-01"] })),
    responses((status = 200, description = "What is answered otherwise",
        body = ref("#/components/schemas/Effect"), content_type = "application/json")))]
pub(crate) async fn effect(State(state): State<Shared>, headers: HeaderMap, sent: Body) -> Result<Response, Problem> {
    Media::Json.wanted(&headers)?;
    Media::of(&headers, &[Media::Json])?;
    let bytes = body::read(&state, sent, state.limits.body).await?;
    let asked = read(&bytes)?;
    let today = (state.today)();
    let told = work(&state, move |state| asked.answer(&state.rules, today)).await?;
    told.map(json).map_err(|findings| Problem::of(StatusCode::UNPROCESSABLE_ENTITY, &findings))
}

fn read(bytes: &[u8]) -> Result<Asked, Problem> {
    serde_json::from_slice(body::unmarked(bytes)).map_err(|problem| {
        let status = if problem.is_data() { StatusCode::UNPROCESSABLE_ENTITY } else { StatusCode::BAD_REQUEST };
        Problem::new(status, format!("the body cannot be read: {problem}"))
            .help("send `{ \"place\": …, \"against\": … }` or `{ \"place\": …, \"dates\": [ …, … ] }`")
    })
}

impl Asked {
    fn answer(&self, rules: &Rules, today: Date) -> Result<String, Vec<Finding>> {
        let (sides, between, window) = self.sides(rules).map_err(|problem| vec![problem])?;
        let frame = Frame { sides, between, window, today, reader: Reader::default() };
        let account =
            Account::new(&frame).map_err(|(_, told)| vec![Files::new(rules, HashMap::new()).finding(&told)])?;
        Ok(format!("{:#}\n", crate::report::effect::json(&account)))
    }

    fn sides<'r>(&self, rules: &'r Rules) -> Result<([Side<'r>; 2], Between, Window), Finding> {
        let own = place(rules, &self.place, "place")?;
        let window = self.window()?;
        let side = |place, on| Side { rules, place, on };
        match (&self.against, &self.dates) {
            (Some(against), None) => {
                let other = place(rules, against, "against")?;
                if own == other {
                    return Err(amiss("against", "it names the place itself", "name another place"));
                }
                Ok(([side(own, None), side(other, None)], Between::Places, window))
            }
            (None, Some([one, other])) => {
                let (one, other) = (day(one, "dates")?, day(other, "dates")?);
                if one == other {
                    return Err(amiss("dates", "both days are the same: nothing can change", "name two days"));
                }
                if self.from.is_some() || self.through.is_some() {
                    let name = if self.from.is_some() { "from" } else { "through" };
                    return Err(amiss(name, "it has no meaning beside `dates`", "leave it out"));
                }
                Ok(([side(own, Some(one)), side(own, Some(other))], Between::Days, window))
            }
            (Some(_), Some(_)) => Err(amiss("dates", "it stands beside `against`", "leave one of them out")),
            (None, None) => Err(amiss(
                "against",
                "neither it nor `dates` says what the place is held against",
                "name another place in `against`, or two days in `dates`",
            )),
        }
    }

    fn window(&self) -> Result<Window, Finding> {
        let from = self.from.as_deref().map(|text| day(text, "from")).transpose()?;
        let through = self.through.as_deref().map(|text| day(text, "through")).transpose()?;
        if let (Some(from), Some(through)) = (from, through)
            && from > through
        {
            let message = format!("the days end on {through}, before they begin on {from}");
            return Err(Finding::new(codes::DATE_ORDER, Spot::parameter("through"), message)
                .help("give `from` the earlier day and `through` the later"));
        }
        Ok(Window { from, through })
    }
}

/// Parameters that each can be read and make no sense together.
fn amiss(name: &str, message: &str, help: &str) -> Finding {
    Finding::new(codes::JOB, Spot::parameter(name), message).help(help)
}

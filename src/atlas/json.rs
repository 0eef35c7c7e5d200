//! JSON none of whose objects has a member twice: a reader that takes the last of two would
//! pass the first over in silence.

use serde::de::{Deserialize, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use serde_json::{Map, Value};
use std::fmt;

/// A value as it is written.
///
/// # Errors
/// Where it is no JSON, or a member stands twice.
pub(super) fn read(bytes: &[u8]) -> serde_json::Result<Value> {
    serde_json::from_slice(bytes).map(|Once(value)| value)
}

struct Once(Value);

impl<'de> Deserialize<'de> for Once {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Once, D::Error> {
        deserializer.deserialize_any(Reader).map(Once)
    }
}

struct Reader;

impl<'de> Visitor<'de> for Reader {
    type Value = Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a JSON value")
    }

    fn visit_unit<E: Error>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_bool<E: Error>(self, truth: bool) -> Result<Value, E> {
        Ok(truth.into())
    }

    fn visit_u64<E: Error>(self, number: u64) -> Result<Value, E> {
        Ok(number.into())
    }

    fn visit_i64<E: Error>(self, number: i64) -> Result<Value, E> {
        Ok(number.into())
    }

    fn visit_f64<E: Error>(self, number: f64) -> Result<Value, E> {
        Ok(number.into())
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<Value, E> {
        Ok(text.into())
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut parts: A) -> Result<Value, A::Error> {
        let mut list = Vec::new();
        while let Some(Once(part)) = parts.next_element()? {
            list.push(part);
        }
        Ok(Value::Array(list))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut members: A) -> Result<Value, A::Error> {
        let mut object = Map::new();
        while let Some(name) = members.next_key::<String>()? {
            if object.contains_key(&name) {
                return Err(A::Error::custom(format!("the member `{}` stands twice", crate::glossary::cut(&name))));
            }
            let Once(value) = members.next_value()?;
            object.insert(name, value);
        }
        Ok(Value::Object(object))
    }
}

//! What is held in several places, and what is worked out anew only where it comes from something else.

use std::borrow::Cow;
use std::collections::VecDeque;
use std::ops::Deref;
use std::sync::{Arc, Mutex, PoisonError};

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// A value that is held in several places: cheap to hold once more, and one and the same is known to be equal without a look
/// inside.
#[derive(Debug)]
pub struct Shared<T>(Arc<T>);

impl<T: Clone> Shared<T> {
    /// The same value, held apart: two cores that hold one and the same wait for each other whenever one takes or drops it.
    #[must_use]
    pub(crate) fn apart(&self) -> Self {
        Self::from(T::clone(self))
    }
}

impl<T> Clone for Shared<T> {
    fn clone(&self) -> Self {
        Self(Arc::clone(&self.0))
    }
}

impl<T> Deref for Shared<T> {
    type Target = T;
    fn deref(&self) -> &T {
        &self.0
    }
}

impl<T> From<T> for Shared<T> {
    fn from(value: T) -> Self {
        Self(Arc::new(value))
    }
}

impl<T: Default> Default for Shared<T> {
    fn default() -> Self {
        Self::from(T::default())
    }
}

impl<T: PartialEq> PartialEq for Shared<T> {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0) || *self.0 == *other.0
    }
}

impl<T> Shared<Vec<T>> {
    /// One after another.
    pub fn iter(&self) -> std::slice::Iter<'_, T> {
        self.0.iter()
    }
}

impl<'a, T> IntoIterator for &'a Shared<Vec<T>> {
    type Item = &'a T;
    type IntoIter = std::slice::Iter<'a, T>;
    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

impl<T: Serialize> Serialize for Shared<T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.0.serialize(serializer)
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Shared<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        T::deserialize(deserializer).map(Self::from)
    }
}

impl<T: JsonSchema> JsonSchema for Shared<T> {
    fn inline_schema() -> bool {
        T::inline_schema()
    }

    fn schema_name() -> Cow<'static, str> {
        T::schema_name()
    }

    fn schema_id() -> Cow<'static, str> {
        T::schema_id()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        T::json_schema(generator)
    }
}

/// A result beside all that it came from; nothing before there is one.
#[derive(Debug)]
pub(crate) struct Kept<K, T>(Option<(K, T)>);

impl<K, T> Default for Kept<K, T> {
    fn default() -> Self {
        Self(None)
    }
}

impl<K: PartialEq, T: Clone> Kept<K, T> {
    /// The result, where it came from the same.
    pub(crate) fn from(&self, from: &K) -> Option<T> {
        self.0.as_ref().filter(|(own, _)| own == from).map(|(_, result)| result.clone())
    }

    /// Keeps a result in place of the last.
    pub(crate) fn keep(&mut self, from: K, result: T) {
        self.0 = Some((from, result));
    }

    /// The result, worked out anew where it would come from something else. A plain function sees nothing but what it is
    /// given, so that the result cannot come from anything else.
    pub(crate) fn of(&mut self, from: K, work: fn(&K) -> T) -> T {
        self.from(&from).unwrap_or_else(|| {
            let result = work(&from);
            self.keep(from, result.clone());
            result
        })
    }
}

/// The results of the last few calls of a plain function, whoever called it: the same input has the same result.
#[derive(Debug)]
pub(crate) struct Recent<K, T>(Mutex<VecDeque<(K, T)>>);

/// Results that are kept; older ones are worked out anew.
const KEPT_RESULTS: usize = 64;

impl<K: PartialEq + Clone, T: Clone> Recent<K, T> {
    pub(crate) const fn new() -> Self {
        Self(Mutex::new(VecDeque::new()))
    }

    /// The result, worked out where it is not among the last ones; others may ask meanwhile.
    pub(crate) fn of(&self, from: &K, work: fn(&K) -> T) -> T {
        let known =
            |kept: &VecDeque<(K, T)>| kept.iter().find(|(own, _)| own == from).map(|(_, result)| result.clone());
        // A thread that gave up while it held the lock left nothing half done: rows are whole.
        let kept = || self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(result) = known(&kept()) {
            return result;
        }
        let result = work(from);
        let mut kept = kept();
        if known(&kept).is_none() {
            kept.truncate(KEPT_RESULTS - 1);
            kept.push_front((from.clone(), result.clone()));
        }
        result
    }
}

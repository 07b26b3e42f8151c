//! The value of an attribute.

use leptos::prelude::{Get as _, Memo, Signal};

/// What an attribute is set to.
pub enum Value {
    /// The attribute is not there.
    Absent,
    /// A text of the program.
    Fixed(&'static str),
    /// A text that was put together.
    Own(String),
    /// Asked anew whenever what it reads changes.
    Live(Box<dyn Fn() -> Value>),
}

impl Value {
    /// The text; of a live one as it stands now.
    pub(super) fn with<R>(&self, then: impl FnOnce(Option<&str>) -> R) -> R {
        match self {
            Self::Absent => then(None),
            Self::Fixed(text) => then(Some(text)),
            Self::Own(text) => then(Some(text)),
            Self::Live(now) => match now() {
                Self::Fixed(text) => then(Some(text)),
                Self::Own(text) => then(Some(&text)),
                _ => then(None),
            },
        }
    }
}

/// What an attribute can be set to.
pub trait IntoValue {
    /// As the value of an attribute.
    fn into_value(self) -> Value;
}

impl IntoValue for Value {
    fn into_value(self) -> Value {
        self
    }
}

impl IntoValue for &'static str {
    fn into_value(self) -> Value {
        Value::Fixed(self)
    }
}

impl IntoValue for String {
    fn into_value(self) -> Value {
        Value::Own(self)
    }
}

/// There, or not.
impl IntoValue for bool {
    fn into_value(self) -> Value {
        if self { Value::Fixed("") } else { Value::Absent }
    }
}

impl<T: IntoValue> IntoValue for Option<T> {
    fn into_value(self) -> Value {
        self.map_or(Value::Absent, T::into_value)
    }
}

impl<T: IntoValue, F: Fn() -> T + 'static> IntoValue for F {
    fn into_value(self) -> Value {
        Value::Live(Box::new(move || self().into_value()))
    }
}

macro_rules! read_by_get {
    ($($signal:ident)+) => {
        $(impl<T: IntoValue + Clone + Send + Sync + 'static> IntoValue for $signal<T> {
            fn into_value(self) -> Value {
                Value::Live(Box::new(move || self.get().into_value()))
            }
        })+
    };
}
read_by_get!(Memo Signal);

macro_rules! printed {
    ($($number:ty)+) => {
        $(impl IntoValue for $number {
            fn into_value(self) -> Value {
                Value::Own(self.to_string())
            }
        })+
    };
}
printed!(u16 u32 u64 usize i32 i64);

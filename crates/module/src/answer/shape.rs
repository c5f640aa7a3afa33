//! What an answer is made of, told once: the macros that make its structures and
//! their description.

use serde::{Serialize, Serializer};

/// The form of a value in an answer.
#[derive(Clone, Copy, Debug)]
pub enum Shape {
    /// A whole number, never negative.
    Whole,
    /// A number.
    Number,
    /// True or false.
    Boolean,
    /// Text.
    Text,
    /// One of a few words.
    Word(&'static Words),
    /// The value, or `null` where it is not known.
    Nullable(&'static Shape),
    /// A list.
    List(&'static Shape),
    /// An object.
    Object(&'static Described),
}

/// A few words that a value is one of.
#[derive(Clone, Copy, Debug)]
pub struct Words {
    /// What the choice is called.
    pub name: &'static str,
    /// What it says.
    pub doc: &'static str,
    /// The words.
    pub words: &'static [&'static str],
}

/// An object of the answer.
#[derive(Clone, Copy, Debug)]
pub struct Described {
    /// What it is called.
    pub name: &'static str,
    /// What it is.
    pub doc: &'static str,
    /// Its fields in order: name, what it says, form.
    pub fields: &'static [(&'static str, &'static str, Shape)],
}

/// A type whose form in an answer is known.
pub trait Shaped {
    /// The form.
    const SHAPE: Shape;
}

/// A code of the solver whose values have names in the contract.
pub trait Named: Copy {
    /// All of them.
    const WORDS: Words;
    /// The name of this one.
    fn name(self) -> &'static str;
}

/// A code of the solver, written as its name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Word<T>(pub T);

impl<T: Named> Word<T> {
    /// The name in the contract.
    pub fn name(self) -> &'static str {
        self.0.name()
    }
}

impl<T: Named> Serialize for Word<T> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(self.0.name())
    }
}

impl<T: Named> Shaped for Word<T> {
    const SHAPE: Shape = Shape::Word(&T::WORDS);
}

impl<T: Shaped> Shaped for Option<T> {
    const SHAPE: Shape = Shape::Nullable(&T::SHAPE);
}

impl<T: Shaped> Shaped for Vec<T> {
    const SHAPE: Shape = Shape::List(&T::SHAPE);
}

macro_rules! shaped {
    ($($type:ty: $shape:ident,)*) => {
        $(impl Shaped for $type { const SHAPE: Shape = Shape::$shape; })*
    };
}

shaped! { u32: Whole, u64: Whole, f64: Number, bool: Boolean, String: Text, }

/// Gives the solver's codes their names; a code that is left out does not compile.
macro_rules! named {
    ($(#[doc = $doc:literal] $type:ident $(as $name:literal)?: $($value:ident),*;)*) => {
        $(impl Named for $type {
            const WORDS: shape::Words = shape::Words {
                name: named!(@ $type $($name)?),
                doc: $doc,
                words: &[$($type::$value.name()),*],
            };
            fn name(self) -> &'static str {
                match self { $(Self::$value => $type::$value.name(),)* }
            }
        })*
    };
    (@ $type:ident $name:literal) => { $name };
    (@ $type:ident) => { stringify!($type) };
}

/// The same for what the solver has no names for: each value with its own. A value that is
/// left out does not compile.
macro_rules! spelled {
    ($(#[doc = $doc:literal] $type:ty as $name:literal: $($value:pat => $word:literal),*;)*) => {
        $(impl Named for $type {
            const WORDS: shape::Words =
                shape::Words { name: $name, doc: $doc, words: &[$($word),*] };
            fn name(self) -> &'static str {
                match self { $($value => $word,)* }
            }
        })*
    };
}

/// Makes the structures of the answer and their description from one table.
macro_rules! objects {
    ($(#[doc = $doc:literal] $name:ident {
        $(#[doc = $field_doc:literal] $field:ident: $type:ty,)*
    })*) => {
        $(
            #[doc = $doc]
            #[derive(Clone, Debug, PartialEq, Serialize)]
            pub struct $name { $(#[doc = $field_doc] pub $field: $type,)* }

            impl Shaped for $name {
                const SHAPE: Shape = Shape::Object(&Described {
                    name: stringify!($name),
                    doc: $doc,
                    fields: &[$((
                        stringify!($field),
                        $field_doc,
                        <$type as Shaped>::SHAPE,
                    ),)*],
                });
            }
        )*
    };
}

pub(crate) use {named, objects, spelled};

//! A part of the page that is drawn anew only when what it is given has changed.
//!
//! The words of what is long are kept, so that nothing is put into words again while somebody
//! types; and it is a component of its own, since the framework walks what it finds under an
//! element each time, but not what is in a component whose properties are equal.

use yew::prelude::*;

/// How often what a part is given was changed, as far as it is given.
pub type Versions = [u32; 6];

/// Such a part, as it was written.
#[derive(Clone, Debug, Properties)]
pub(super) struct Written {
    /// By what it was written.
    pub given: Versions,
    /// What was written.
    pub html: Html,
}

/// It is the same where it was written by the same.
impl PartialEq for Written {
    fn eq(&self, other: &Self) -> bool {
        self.given == other.given
    }
}

/// The component.
#[derive(Debug)]
pub(super) struct Kept;

impl Component for Kept {
    type Message = ();
    type Properties = Written;

    fn create(_ctx: &Context<Self>) -> Self {
        Self
    }

    fn view(&self, ctx: &Context<Self>) -> Html {
        ctx.props().html.clone()
    }
}

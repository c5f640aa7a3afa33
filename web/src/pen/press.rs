//! What is pressed or ticked: buttons, ways to rooms, boxes.

use super::{Pen, What, When};
use crate::link::{self, Saved};
use crate::rooms::Room;
use crate::state::{Action, page};

impl Pen<'_> {
    /// Opens a button of a class.
    #[inline(never)]
    pub fn press(&mut self, class: &'static str, what: What) {
        self.open("button|type=button");
        self.fixed("class", class);
        self.on(When::Pressed, what);
    }

    /// Opens the way to a room, of a class: a link, for the room has an address. A tap does
    /// what it does on this page; another tab, window or bookmark opens the address.
    #[inline(never)]
    pub fn lead(&mut self, class: &'static str, to: &Saved, what: What) {
        self.open("a");
        self.fixed("class", class);
        let mut address = link::write(to);
        address.insert(0, '#');
        self.made("href", address);
        self.on(When::Followed, what);
    }

    /// The way to a room as the page now stands.
    #[inline(never)]
    pub fn to_room(&mut self, class: &'static str, words: &'static str, room: Room) {
        let to = Saved { room, ..self.state.saved() };
        self.lead(class, &to, What::act(page::Action::Room(room)));
        self.text(words);
        self.close();
    }

    /// A button.
    #[inline]
    pub fn button(&mut self, class: &'static str, words: &'static str, action: impl Into<Action>) {
        self.button_of(class, words, None, action.into());
    }

    /// A button that stays pressed while something is so.
    #[inline(never)]
    pub fn toggle(&mut self, words: &'static str, on: bool, what: What) {
        self.press("quiet", what);
        self.fixed("aria-pressed", if on { "true" } else { "false" });
        self.text(words);
        self.close();
    }

    /// A button whose text says too little to who cannot see what is around it.
    #[inline]
    pub fn named(
        &mut self,
        class: &'static str,
        words: &'static str,
        name: String,
        action: impl Into<Action>,
    ) {
        self.button_of(class, words, Some(name), action.into());
    }

    // Apart, so that there is one of it for all kinds of actions.
    #[inline(never)]
    fn button_of(
        &mut self,
        class: &'static str,
        words: &'static str,
        name: Option<String>,
        action: Action,
    ) {
        self.press(class, What::Do(action));
        if let Some(name) = name {
            self.made("aria-label", name);
        }
        self.text(words);
        self.close();
    }

    /// A box to tick, with what that means.
    #[inline]
    pub fn tick(
        &mut self,
        words: &'static str,
        means: &'static str,
        ticked: bool,
        action: impl Into<Action>,
    ) {
        self.tick_of(words, means, ticked, action.into());
    }

    #[inline(never)]
    fn tick_of(&mut self, words: &'static str, means: &'static str, ticked: bool, action: Action) {
        self.open("label.tick");
        self.open("input|type=checkbox");
        self.ticked(ticked);
        self.on(When::Chosen, What::Do(action));
        self.close();
        self.open("span");
        self.line("b", words);
        if !means.is_empty() {
            self.line("small", means);
        }
        self.close();
        self.close();
    }
}

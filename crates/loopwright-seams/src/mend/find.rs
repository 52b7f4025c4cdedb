//! The smallest change that mends a join, found by halving and then tried.

use super::{ChangedAt, EdgeChange, Mend};
use crate::check::{Judged, Question};
use crate::edge::Room;
use crate::{Edge, EdgeCount, EdgeKind, Error};
use core::cmp::Ordering;
use loopwright_gauge::ReadingDirection;

/// Which edge is changed.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub(crate) enum Which {
    First,
    Second,
}

impl Mend {
    /// What would mend a join that was judged not to hold.
    pub(crate) fn find(question: Question<'_>, judged: &Judged) -> Result<Self, Error> {
        let change = |which| Changing::new(question, judged, which).map(|it| it.smallest());
        Ok(Self { a: change(Which::First)?, b: change(Which::Second)? })
    }
}

/// One edge of a join, being changed.
struct Changing<'a> {
    question: Question<'a>,
    judged: &'a Judged,
    which: Which,
    room: Room,
    counted: ReadingDirection,
}

impl<'a> Changing<'a> {
    fn new(question: Question<'a>, judged: &'a Judged, which: Which) -> Result<Self, Error> {
        let counted = match (judged.paired, which) {
            (Some(_), _) => judged.counted,
            (None, Which::First) => question.a.unit_counted(),
            (None, Which::Second) => question.b.unit_counted(),
        };
        let room = edge(question, which).room(counted)?;
        Ok(Self { question, judged, which, room, counted })
    }

    /// The count nearest to the one the edge has at which the join holds; `None` when the
    /// edge cannot be changed so far, or every count throws it over to the other side.
    fn smallest(&self) -> Option<EdgeChange> {
        let too_long = self.judged.stand == Ordering::Greater;
        let more = too_long == (self.which == Which::Second);
        let far = match self.judged.paired {
            Some(excess) => u32::try_from(excess.unsigned_abs()).ok()?,
            None => self.nearest(more)?,
        };
        // The search adds up lengths; the edge itself, made of its steps, decides.
        let most = self.room.most(more);
        let tried = (far..=far.saturating_add(1)).take_while(|&by| by <= most);
        tried.map(|by| self.to(by, more)).find_map(|to| self.tried(to?))
    }

    fn to(&self, by: u32, more: bool) -> Option<EdgeCount> {
        let count = self.room.count;
        let to = if more { count.checked_add(by)? } else { count.checked_sub(by)? };
        EdgeCount::new(to, self.counted).ok()
    }

    /// The change to a count, if the join holds once it is made.
    fn tried(&self, to: EdgeCount) -> Option<EdgeChange> {
        let own = edge(self.question, self.which);
        let changed = own.recounted(to).ok()?;
        let question = match self.which {
            Which::First => Question { a: &changed, ..self.question },
            Which::Second => Question { b: &changed, ..self.question },
        };
        let holds = question.judge().is_ok_and(|judged| judged.stand == Ordering::Equal);
        let at = if own.is_alike() { ChangedAt::Anywhere } else { ChangedAt::Straight };
        let from = EdgeCount::new(self.room.count, self.counted).ok().filter(|_| holds)?;
        Some(EdgeChange { edge: own.name().into(), from, to, at })
    }

    /// The smallest change after which the join is no longer on its first side.
    ///
    /// Lengthening only ever moves the join one way, so it is found by halving.
    fn nearest(&self, more: bool) -> Option<u32> {
        let most = self.room.most(more);
        let left = |by: u32| {
            let by = if more { i64::from(by) } else { -i64::from(by) };
            self.stand(by).map(|now| now != self.judged.stand)
        };
        let mut far = 1_u32;
        while far <= most && !left(far).ok()? {
            far = far.checked_mul(2)?;
        }
        let mut near = far / 2;
        let mut far = far.min(most);
        if far == 0 || !left(far).ok()? {
            return None;
        }
        while far - near > 1 {
            let middle = near + (far - near) / 2;
            if left(middle).ok()? { far = middle } else { near = middle }
        }
        Some(far)
    }

    /// Where the join stands once the edge has so many more.
    fn stand(&self, more: i64) -> Result<Ordering, Error> {
        let grown = self.room.grown(more)?;
        match self.which {
            Which::First => self.judged.stand_after(&self.question, grown, None),
            Which::Second => self.judged.stand_after(&self.question, grown.negated(), Some(grown)),
        }
    }
}

const fn edge(question: Question<'_>, which: Which) -> &Edge {
    match which {
        Which::First => question.a,
        Which::Second => question.b,
    }
}

impl Edge {
    /// Whether a stitch or row more is the same wherever along the edge it comes.
    fn is_alike(&self) -> bool {
        match self.parts() {
            [part] => part.kind != EdgeKind::Stepped,
            parts => parts.iter().all(|part| part.kind.is_stitches()),
        }
    }
}

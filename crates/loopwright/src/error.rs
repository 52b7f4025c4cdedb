use crate::{garment, gauge, joint, pattern, seams, shaping, yardage};

/// What any room refuses, in one type: a program that uses several rooms writes `?` and
/// this.
///
/// The text is the room's own and names which quantity, which value and what was allowed.
///
/// # Examples
/// ```
/// use loopwright::prelude::*;
///
/// fn cuff(width: &str) -> Result<Taper, loopwright::Error> {
///     let gauge: Gauge = "28 x 40 / 10 cm".parse()?;
///     let cuff = gauge.fit::<Stitches>(width.parse()?, Repeat::even(), Round::HalfUp)?.count;
///     Ok(Taper::builder(cuff, Stitches::new(88)?, Rows::new(30)?).build()?)
/// }
/// assert!(cuff("30 cm").is_ok());
/// let refused = cuff("18 cm").unwrap_err();
/// assert!(refused.is_impossible(), "38 stitches in 30 rows: {refused}");
/// assert!(refused.remedy().is_some());
/// assert!(cuff("wide").unwrap_err().is_parse());
/// ```
///
/// What a piece cannot be knitted for is told with its place:
///
/// ```
/// use loopwright::pattern::{Fabric, Side, Step};
/// use loopwright::prelude::*;
///
/// # fn knit() -> Result<(), loopwright::Error> {
/// let mut scarf = Piece::new("scarf", Craft::Machine(Bed::of_needles(100)?))?;
/// scarf.push(Step::cast_on(Stitches::new(120)?, Fabric::Plain, Side::Right));
/// let refused = loopwright::Error::from(scarf.replay().unwrap_err());
/// assert_eq!((refused.piece(), refused.step()), (Some("scarf"), Some(1)));
/// # Ok(())
/// # }
/// # knit().unwrap();
/// ```
#[derive(Clone, Debug, Eq, PartialEq, thiserror::Error)]
#[error(transparent)]
pub struct Error(Kind);

#[derive(Clone, Debug, Eq, PartialEq, thiserror::Error)]
enum Kind {
    #[error(transparent)]
    Gauge(gauge::Error),
    #[error(transparent)]
    Shaping(shaping::Error),
    #[error(transparent)]
    Joint(joint::Error),
    #[error(transparent)]
    Conflict(joint::Conflict),
    #[error(transparent)]
    Seams(seams::Error),
    #[error(transparent)]
    Yardage(yardage::Error),
    #[error(transparent)]
    Pattern(pattern::Error),
    #[error(transparent)]
    Garment(garment::Error),
}

impl Error {
    /// Whether every value was allowed, but what was asked for cannot be done: no count
    /// fits, the shaping has no room, demands cannot all hold, the yarn is short, a row
    /// cannot be knitted. Otherwise a value of the input is wrong.
    #[must_use]
    pub const fn is_impossible(&self) -> bool {
        match &self.0 {
            Kind::Gauge(error) => error.is_unmet(),
            Kind::Shaping(error) => error.is_impossible(),
            Kind::Joint(error) => error.is_unproved(),
            Kind::Seams(error) => error.is_wrong_edge(),
            Kind::Yardage(error) => error.is_short(),
            Kind::Garment(error) => error.is_impossible(),
            Kind::Conflict(_) | Kind::Pattern(_) => true,
        }
    }

    /// Whether a text could not be read.
    #[must_use]
    pub const fn is_parse(&self) -> bool {
        match &self.0 {
            Kind::Gauge(error) => error.is_parse(),
            Kind::Seams(error) => error.is_parse(),
            Kind::Yardage(error) => error.is_parse(),
            _ => false,
        }
    }

    /// The piece that cannot be knitted, where that is what is wrong.
    #[must_use]
    pub fn piece(&self) -> Option<&str> {
        self.knitting().and_then(pattern::Error::piece)
    }

    /// The step of that piece, the first being 1.
    #[must_use]
    pub fn step(&self) -> Option<usize> {
        self.knitting().and_then(pattern::Error::step)
    }

    /// What the row counter shows there.
    #[must_use]
    pub fn row(&self) -> Option<gauge::Rows> {
        self.knitting().and_then(pattern::Error::row)
    }

    const fn knitting(&self) -> Option<&pattern::Error> {
        match &self.0 {
            Kind::Pattern(error) => Some(error),
            Kind::Garment(error) => error.knitting(),
            _ => None,
        }
    }

    /// The demands that cannot all hold, where that is what is wrong.
    #[must_use]
    pub const fn conflict(&self) -> Option<&joint::Conflict> {
        match &self.0 {
            Kind::Conflict(conflict) => Some(conflict),
            _ => None,
        }
    }

    /// What would make an impossible shaping possible, where that is known.
    #[must_use]
    pub fn remedy(&self) -> Option<shaping::Remedy> {
        match &self.0 {
            Kind::Shaping(error) => error.remedy(),
            _ => None,
        }
    }
}

impl From<gauge::Error> for Error {
    fn from(error: gauge::Error) -> Self {
        Self(Kind::Gauge(error))
    }
}

impl From<shaping::Error> for Error {
    fn from(error: shaping::Error) -> Self {
        Self(Kind::Shaping(error))
    }
}

impl From<joint::Error> for Error {
    fn from(error: joint::Error) -> Self {
        Self(Kind::Joint(error))
    }
}

impl From<joint::Conflict> for Error {
    fn from(conflict: joint::Conflict) -> Self {
        Self(Kind::Conflict(conflict))
    }
}

impl From<seams::Error> for Error {
    fn from(error: seams::Error) -> Self {
        Self(Kind::Seams(error))
    }
}

impl From<yardage::Error> for Error {
    fn from(error: yardage::Error) -> Self {
        Self(Kind::Yardage(error))
    }
}

impl From<pattern::Error> for Error {
    fn from(error: pattern::Error) -> Self {
        Self(Kind::Pattern(error))
    }
}

impl From<garment::Error> for Error {
    fn from(error: garment::Error) -> Self {
        Self(Kind::Garment(error))
    }
}

//! Currencies.

use std::fmt;

/// A currency that prices may be in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Currency {
    /// The job's own dollar, as `$` says; see [`Currency::resolved`].
    Dollar,
    /// The US dollar.
    Usd,
    /// The Australian dollar.
    Aud,
    /// The Canadian dollar.
    Cad,
    /// The New Zealand dollar.
    Nzd,
    /// The pound sterling.
    Gbp,
    /// The euro.
    Eur,
}

impl Currency {
    /// Every currency.
    pub const ALL: [Self; 7] = [
        Self::Dollar,
        Self::Usd,
        Self::Aud,
        Self::Cad,
        Self::Nzd,
        Self::Gbp,
        Self::Eur,
    ];

    /// The currency of a sign (`$`, `£`, `€`) or of a code in any case.
    pub fn parse(text: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|currency| match currency {
            Self::Dollar | Self::Gbp | Self::Eur => {
                text == currency.symbol() || text.eq_ignore_ascii_case(currency.code())
            }
            _ => text.eq_ignore_ascii_case(currency.code()),
        })
    }

    /// The sign written before an amount.
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Dollar | Self::Usd | Self::Aud | Self::Cad | Self::Nzd => "$",
            Self::Gbp => "£",
            Self::Eur => "€",
        }
    }

    /// The ISO 4217 code; `$` for the dollar of a job that names no currency.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Dollar => "$",
            Self::Usd => "USD",
            Self::Aud => "AUD",
            Self::Cad => "CAD",
            Self::Nzd => "NZD",
            Self::Gbp => "GBP",
            Self::Eur => "EUR",
        }
    }

    /// True for every dollar.
    pub const fn is_dollar(self) -> bool {
        matches!(
            self,
            Self::Dollar | Self::Usd | Self::Aud | Self::Cad | Self::Nzd
        )
    }

    /// The currency meant in a job whose own currency is `job`: `$` is the
    /// job's dollar if it has one. In a job in pounds it stays what it is.
    #[must_use]
    pub const fn resolved(self, job: Self) -> Self {
        match self {
            Self::Dollar if job.is_dollar() => job,
            _ => self,
        }
    }
}

impl fmt::Display for Currency {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(self.code())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn signs_and_codes_are_read() {
        for (text, currency) in [
            ("$", Some(Currency::Dollar)),
            ("£", Some(Currency::Gbp)),
            ("€", Some(Currency::Eur)),
            ("USD", Some(Currency::Usd)),
            ("aud", Some(Currency::Aud)),
            ("Cad", Some(Currency::Cad)),
            ("NZD", Some(Currency::Nzd)),
            ("GBP", Some(Currency::Gbp)),
            ("EUR", Some(Currency::Eur)),
            ("", None),
            ("US", None),
            ("¥", None),
            ("dollar", None),
        ] {
            assert_eq!(Currency::parse(text), currency, "{text}");
        }
    }

    #[test]
    fn a_dollar_is_the_dollar_of_the_job() {
        assert_eq!(Currency::Dollar.resolved(Currency::Aud), Currency::Aud);
        assert_eq!(Currency::Usd.resolved(Currency::Aud), Currency::Usd);
        assert_eq!(Currency::Dollar.resolved(Currency::Gbp), Currency::Dollar);
        assert_eq!(Currency::Gbp.resolved(Currency::Usd), Currency::Gbp);
    }
}

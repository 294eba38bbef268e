//! Where a kitchen stands: whose law, which money, which language.

/// Whose law a label follows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Jurisdiction {
    /// The United States.
    #[default]
    Us,
    /// The European Union.
    Eu,
    /// The United Kingdom.
    Uk,
    /// Canada.
    Canada,
    /// Australia and New Zealand, which share one code of food standards.
    Australia,
}

impl Jurisdiction {
    /// The jurisdiction of a word in small letters.
    pub fn named(word: &str) -> Option<Jurisdiction> {
        match word {
            "us" | "usa" | "united states" => Some(Jurisdiction::Us),
            "eu" | "european union" => Some(Jurisdiction::Eu),
            "uk" | "united kingdom" => Some(Jurisdiction::Uk),
            "canada" => Some(Jurisdiction::Canada),
            "australia" | "new zealand" => Some(Jurisdiction::Australia),
            _ => None,
        }
    }

    /// As it is said: `US law`.
    pub fn law(self) -> &'static str {
        match self {
            Jurisdiction::Us => "US law",
            Jurisdiction::Eu => "EU law",
            Jurisdiction::Uk => "UK law",
            Jurisdiction::Canada => "Canadian law",
            Jurisdiction::Australia => "Australian law",
        }
    }
}

/// A currency by its three letters. Whether there is such money is not looked up: nothing is exchanged here.
pub(super) fn currency(word: &str) -> Option<String> {
    (word.len() == 3 && word.bytes().all(|byte| byte.is_ascii_alphabetic())).then(|| word.to_ascii_uppercase())
}

/// A language with or without its country, as `en` or `en-US`.
pub(super) fn locale(word: &str) -> Option<String> {
    let (language, country) = word.split_once(['-', '_']).map_or((word, None), |(one, two)| (one, Some(two)));
    let letters = |part: &str| part.bytes().all(|byte| byte.is_ascii_alphabetic());
    let sound = letters(language)
        && (2..=3).contains(&language.len())
        && country.is_none_or(|country| country.len() == 2 && letters(country));
    let country = country.map_or(String::new(), |country| format!("-{}", country.to_ascii_uppercase()));
    sound.then(|| format!("{}{country}", language.to_ascii_lowercase()))
}

#include "entries/countries.hpp"

#include <array>

namespace coeval {
namespace {

// ISO 3166-1:2020 and ISO 3166-3:2020; a test compares them with the tables of Debian's package iso-codes.
constexpr std::array codes = std::to_array<std::string_view>(
    {"ad",   "ae",   "af",   "ag", "ai",   "aidj", "al",   "am",   "anhh", "ao",   "aq",   "ar",   "as",   "at", "au",
     "aw",   "ax",   "az",   "ba", "bb",   "bd",   "be",   "bf",   "bg",   "bh",   "bi",   "bj",   "bl",   "bm", "bn",
     "bo",   "bq",   "bqaq", "br", "bs",   "bt",   "bumm", "bv",   "bw",   "by",   "byaa", "bz",   "ca",   "cc", "cd",
     "cf",   "cg",   "ch",   "ci", "ck",   "cl",   "cm",   "cn",   "co",   "cr",   "cshh", "csxx", "ctki", "cu", "cv",
     "cw",   "cx",   "cy",   "cz", "ddde", "de",   "dj",   "dk",   "dm",   "do",   "dybj", "dz",   "ec",   "ee", "eg",
     "eh",   "er",   "es",   "et", "fi",   "fj",   "fk",   "fm",   "fo",   "fqhh", "fr",   "fxfr", "ga",   "gb", "gd",
     "ge",   "gehh", "gf",   "gg", "gh",   "gi",   "gl",   "gm",   "gn",   "gp",   "gq",   "gr",   "gs",   "gt", "gu",
     "gw",   "gy",   "hk",   "hm", "hn",   "hr",   "ht",   "hu",   "hvbf", "id",   "ie",   "il",   "im",   "in", "io",
     "iq",   "ir",   "is",   "it", "je",   "jm",   "jo",   "jp",   "jtum", "ke",   "kg",   "kh",   "ki",   "km", "kn",
     "kp",   "kr",   "kw",   "ky", "kz",   "la",   "lb",   "lc",   "li",   "lk",   "lr",   "ls",   "lt",   "lu", "lv",
     "ly",   "ma",   "mc",   "md", "me",   "mf",   "mg",   "mh",   "mium", "mk",   "ml",   "mm",   "mn",   "mo", "mp",
     "mq",   "mr",   "ms",   "mt", "mu",   "mv",   "mw",   "mx",   "my",   "mz",   "na",   "nc",   "ne",   "nf", "ng",
     "nhvu", "ni",   "nl",   "no", "np",   "nqaq", "nr",   "nthh", "nu",   "nz",   "om",   "pa",   "pchh", "pe", "pf",
     "pg",   "ph",   "pk",   "pl", "pm",   "pn",   "pr",   "ps",   "pt",   "puum", "pw",   "py",   "pzpa", "qa", "re",
     "rhzw", "ro",   "rs",   "ru", "rw",   "sa",   "sb",   "sc",   "sd",   "se",   "sg",   "sh",   "si",   "sj", "sk",
     "skin", "sl",   "sm",   "sn", "so",   "sr",   "ss",   "st",   "suhh", "sv",   "sx",   "sy",   "sz",   "tc", "td",
     "tf",   "tg",   "th",   "tj", "tk",   "tl",   "tm",   "tn",   "to",   "tptl", "tr",   "tt",   "tv",   "tw", "tz",
     "ua",   "ug",   "um",   "us", "uy",   "uz",   "va",   "vc",   "vdvn", "ve",   "vg",   "vi",   "vn",   "vu", "wf",
     "wkum", "ws",   "ydye", "ye", "yt",   "yucs", "za",   "zm",   "zrcd", "zw"});

} // namespace

std::span<const std::string_view> country_codes() { return codes; }

} // namespace coeval

#include "pictures/xml.hpp"

#include <algorithm>
#include <charconv>

#include <fmt/format.h>

#include "pictures/formats.hpp"
#include "source/text.hpp"

namespace coeval {
namespace {

constexpr std::size_t deepest = 200; // elements inside each other
constexpr std::string_view space = " \t\r\n";

bool letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_'; }
bool name_character(char c) { return letter(c) || (c >= '0' && c <= '9') || c == '-' || c == '.' || c == ':'; }

// Production 2.
bool character(std::uint32_t point) {
  return point == 0x9 || point == 0xA || point == 0xD || (point >= 0x20 && point <= 0xD7FF) ||
         (point >= 0xE000 && point <= 0xFFFD) || (point >= 0x10000 && point <= 0x10FFFF);
}

// The first byte that no XML may hold; nothing where all is well.
std::optional<std::size_t> first_wrong_byte(std::string_view text) {
  if (const auto bad = first_bad_byte(text)) return bad;
  for (std::size_t at = 0; at < text.size(); ++at) {
    const auto byte = static_cast<unsigned char>(text[at]);
    if (byte < 0x20 && !character(byte)) return at;
    if (byte == 0xEF && (text.substr(at).starts_with("\xEF\xBF\xBE") || text.substr(at).starts_with("\xEF\xBF\xBF")))
      return at;
  }
  return {};
}

void append_utf8(std::uint32_t point, std::string& into) {
  const auto tail = [&](unsigned shift) { into += static_cast<char>(0x80U | (point >> shift & 0x3FU)); };
  if (point < 0x80) {
    into += static_cast<char>(point);
  } else if (point < 0x800) {
    into += static_cast<char>(0xC0U | point >> 6);
    tail(0);
  } else if (point < 0x10000) {
    into += static_cast<char>(0xE0U | point >> 12);
    tail(6);
    tail(0);
  } else {
    into += static_cast<char>(0xF0U | point >> 18);
    tail(12);
    tail(6);
    tail(0);
  }
}

// A name with at most one prefix (Namespaces, production 7).
bool qualified(std::string_view name) {
  const std::size_t colon = name.find(':');
  if (colon == std::string_view::npos) return true;
  const std::string_view local = name.substr(colon + 1);
  return colon > 0 && !local.empty() && letter(local.front()) && local.find(':') == std::string_view::npos;
}

std::string_view prefix_of(std::string_view name) {
  const std::size_t colon = name.find(':');
  return colon == std::string_view::npos ? std::string_view{} : name.substr(0, colon);
}

} // namespace

XmlReader::XmlReader(std::string_view text) : text_(text) {
  if (text_.starts_with("\xEF\xBB\xBF")) at_ = 3;
}

void XmlReader::count_lines() {
  line_ += static_cast<std::size_t>(std::count(text_.begin() + static_cast<std::ptrdiff_t>(counted_),
                                               text_.begin() + static_cast<std::ptrdiff_t>(at_), '\n'));
  counted_ = at_;
}

XmlReader::Event XmlReader::fail(std::string_view what) {
  count_lines();
  failed_ = true;
  fault_ = broken(fmt::format("line {}: {}", line_, what));
  return Event::fault;
}

XmlReader::Event XmlReader::fail_unsafe(std::string_view what) {
  const Event event = fail(what);
  fault_.kind = PictureFault::Kind::unsafe;
  return event;
}

bool XmlReader::skip_space() {
  const std::size_t begin = at_;
  at_ = std::min(text_.find_first_not_of(space, at_), text_.size());
  return at_ > begin;
}

bool XmlReader::take(std::string_view expected) {
  if (!rest().starts_with(expected)) return false;
  at_ += expected.size();
  return true;
}

std::string_view XmlReader::read_name() {
  const std::size_t begin = at_;
  if (at_ < text_.size() && letter(text_[at_]))
    while (at_ < text_.size() && name_character(text_[at_])) ++at_;
  const std::string_view name = text_.substr(begin, at_ - begin);
  return qualified(name) ? name : std::string_view{};
}

XmlReader::Event XmlReader::next() {
  if (failed_) return Event::fault;
  if (!started_) {
    started_ = true;
    if (const auto wrong = first_wrong_byte(text_)) {
      at_ = *wrong;
      return fail("a byte here is not UTF-8 text, or a character that XML does not allow");
    }
    if (rest().starts_with("<?xml") && rest().size() > 5 && space.find(rest()[5]) != std::string_view::npos &&
        !read_declaration())
      return fail(trouble_);
  }
  if (close_now_) {
    close_now_ = false;
    open_.pop_back();
    while (!prefixes_.empty() && prefixes_.back().depth > open_.size()) prefixes_.pop_back();
    return Event::close;
  }
  while (true) {
    count_lines();
    if (open_.empty()) {
      skip_space();
      count_lines();
      if (at_ == text_.size()) return rooted_ ? Event::end : fail("there is no element");
      if (text_[at_] != '<') return fail("text stands outside the root element");
    }
    if (at_ == text_.size()) return fail(fmt::format("`{}` is never closed", open_.back()));
    if (text_[at_] != '<') return read_text();
    if (rest().starts_with("<!--")) {
      if (!skip_comment()) return fail(trouble_);
      continue;
    }
    if (rest().starts_with("<![CDATA[") && !open_.empty()) return read_cdata();
    if (rest().starts_with("<!")) return fail_unsafe("a document type can name other files; leave `<!DOCTYPE …>` out");
    if (rest().starts_with("<?")) return fail_unsafe("a processing instruction can load other files; leave it out");
    return rest().starts_with("</") ? read_close() : read_open();
  }
}

bool XmlReader::skip_comment() {
  at_ += 4;
  const std::size_t end = text_.find("--", at_);
  if (end == std::string_view::npos || end + 2 >= text_.size() || text_[end + 2] != '>') {
    trouble_ = "a comment is never closed, or holds `--`";
    return false;
  }
  at_ = end + 3;
  return true;
}

// Productions 23 to 32 and 80.
bool XmlReader::read_declaration() {
  at_ += 5;
  if (!read_attributes("?>")) return false;
  take("?>");
  trouble_ = "the declaration is not written as <?xml version=\"1.0\" encoding=\"UTF-8\"?>";
  auto told = attributes_.begin();
  if (told == attributes_.end() || told->name != "version" || told->value != "1.0") return false;
  ++told;
  if (told != attributes_.end() && told->name == "encoding") {
    std::string name = told->value;
    for (char& c : name)
      if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    if (name != "utf-8") {
      trouble_ = "it is said to be in another encoding: save it as UTF-8";
      return false;
    }
    ++told;
  }
  if (told != attributes_.end() && told->name == "standalone" && (told->value == "yes" || told->value == "no")) ++told;
  return told == attributes_.end();
}

bool XmlReader::read_reference(std::string& into) {
  const std::size_t end = text_.find(';', at_);
  const std::string_view name =
      end == std::string_view::npos || end - at_ > 12 ? std::string_view{} : text_.substr(at_ + 1, end - at_ - 1);
  if (name.starts_with('#')) {
    const bool hex = name.starts_with("#x");
    const std::string_view digits = name.substr(hex ? 2 : 1);
    std::uint32_t point = 0;
    const auto [stop, error] = std::from_chars(digits.data(), digits.data() + digits.size(), point, hex ? 16 : 10);
    if (error == std::errc{} && stop == digits.data() + digits.size() && character(point)) {
      append_utf8(point, into);
      at_ = end + 1;
      return true;
    }
  }
  for (const auto& [known, letters] :
       {std::pair<std::string_view, char>{"lt", '<'}, {"gt", '>'}, {"amp", '&'}, {"quot", '"'}, {"apos", '\''}})
    if (name == known) {
      into += letters;
      at_ = end + 1;
      return true;
    }
  trouble_ = "`&` begins no character that XML knows; write `&amp;` for the sign itself";
  return false;
}

// Up to `stop` or, for elements, `/>`.
bool XmlReader::read_attributes(std::string_view stop) {
  attributes_.clear();
  while (true) {
    const bool parted = skip_space();
    if (rest().starts_with(stop) || (stop == ">" && rest().starts_with("/>"))) return true;
    const std::string_view name = read_name();
    trouble_ = "an attribute is not written as name=\"value\", parted from the one before by a space";
    if (name.empty() || !parted) return false;
    skip_space();
    if (!take("=")) return false;
    skip_space();
    const char quote = rest().empty() ? '\0' : rest().front();
    if (quote != '"' && quote != '\'') return false;
    ++at_;
    XmlAttribute attribute{name, {}};
    while (at_ < text_.size() && text_[at_] != quote) {
      if (text_[at_] == '<') {
        trouble_ = "`<` stands in the value of an attribute; write `&lt;`";
        return false;
      }
      if (text_[at_] == '&') {
        if (!read_reference(attribute.value)) return false;
        continue;
      }
      attribute.value += text_[at_++];
    }
    if (!take(std::string_view{&quote, 1})) return false;
    constexpr std::size_t most = 500;
    if (attributes_.size() == most || std::ranges::find(attributes_, name, &XmlAttribute::name) != attributes_.end()) {
      trouble_ = "an attribute is given twice";
      return false;
    }
    attributes_.push_back(std::move(attribute));
  }
}

bool XmlReader::declare_prefixes() {
  for (const XmlAttribute& attribute : attributes_)
    if (attribute.name.starts_with("xmlns:") && !attribute.value.empty())
      prefixes_.push_back({attribute.name.substr(6), open_.size()});
  const auto known = [&](std::string_view name) {
    const std::string_view prefix = prefix_of(name);
    return prefix.empty() || prefix == "xml" || prefix == "xmlns" ||
           std::ranges::find(prefixes_, prefix, &Prefix::name) != prefixes_.end();
  };
  constexpr std::size_t most = 100;
  return prefixes_.size() <= most && known(element_) &&
         std::ranges::all_of(attributes_, [&](const XmlAttribute& attribute) { return known(attribute.name); });
}

XmlReader::Event XmlReader::read_open() {
  if (open_.empty() && rooted_) return fail("a second element stands beside the root element");
  rooted_ = true;
  ++at_;
  element_ = read_name();
  if (element_.empty()) return fail("`<` begins no element; write `&lt;` for the sign itself");
  if (!read_attributes(">")) return fail(trouble_);
  if (open_.size() == deepest) return fail(fmt::format("more than {} elements stand inside each other", deepest));
  open_.push_back(element_);
  if (!declare_prefixes()) return fail("a prefix is used that no `xmlns:` attribute declares, or far too many are");
  close_now_ = take("/");
  take(">");
  return Event::open;
}

XmlReader::Event XmlReader::read_close() {
  at_ += 2;
  element_ = read_name();
  skip_space();
  if (open_.empty() || element_ != open_.back() || !take(">"))
    return fail(open_.empty() ? std::string{"an element is closed that was never opened"}
                              : fmt::format("`{}` is not closed where it should be", open_.back()));
  close_now_ = true;
  return next();
}

XmlReader::Event XmlReader::read_text() {
  content_.clear();
  while (at_ < text_.size() && text_[at_] != '<') {
    if (rest().starts_with("]]>")) return fail("`]]>` stands in a text; write `]]&gt;`");
    if (text_[at_] == '&') {
      if (!read_reference(content_)) return fail(trouble_);
      continue;
    }
    content_ += text_[at_++];
  }
  return Event::text;
}

XmlReader::Event XmlReader::read_cdata() {
  at_ += 9;
  const std::size_t end = text_.find("]]>", at_);
  if (end == std::string_view::npos) return fail("`<![CDATA[` is never closed");
  content_ = text_.substr(at_, end - at_);
  at_ = end + 3;
  return Event::text;
}

} // namespace coeval

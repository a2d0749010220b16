#include "html/target.hpp"

#include <algorithm>

namespace coeval {
namespace {

bool alphanumeric(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9'); }
bool path_byte(char c) { return alphanumeric(c) || c == '-' || c == '_' || c == '.' || c == '/'; }

// Parts of ids and fixed words, none of them empty or a step upwards.
bool is_site_path(std::string_view path) {
  if (path.empty() || !std::ranges::all_of(path, path_byte)) return false;
  for (std::size_t begin = 0; begin <= path.size();) {
    const std::size_t slash = std::min(path.find('/', begin), path.size());
    const std::string_view part = path.substr(begin, slash - begin);
    if (part.empty() || part.front() == '.') return false;
    begin = slash + 1;
  }
  return true;
}

bool starts_with_ignoring_case(std::string_view text, std::string_view start) {
  if (text.size() < start.size()) return false;
  return std::ranges::equal(text.substr(0, start.size()), start,
                            [](char a, char b) { return (a >= 'A' && a <= 'Z' ? a - 'A' + 'a' : a) == b; });
}

// RFC 3986, section 2: reserved and unreserved characters. Brackets belong to IPv6 hosts alone, and '#' to the start of
// the one fragment.
std::string encoded_address(std::string_view address) {
  static constexpr std::string_view allowed = "-._~:/?@!$&'()*+,;=%";
  static constexpr std::string_view digits = "0123456789ABCDEF";
  std::string url;
  bool fragment = false;
  for (std::size_t i = 0; i < address.size(); ++i) {
    const char c = address[i];
    const bool hex = i + 2 < address.size() && std::ranges::all_of(address.substr(i + 1, 2), [](char d) {
                       return std::isxdigit(static_cast<unsigned char>(d));
                     });
    const bool first_hash = c == '#' && !fragment;
    fragment = fragment || c == '#';
    if (alphanumeric(c) || first_hash || (allowed.find(c) != std::string_view::npos && (c != '%' || hex))) {
      url += c;
    } else {
      const auto byte = static_cast<unsigned char>(c);
      url += {'%', digits[byte / 16], digits[byte % 16]};
    }
  }
  return url;
}

// A host must be plain: letters, digits, dots and hyphens, and perhaps a port. Names before an '@' can make an address
// look as if it led somewhere else.
bool has_plain_host(std::string_view after_scheme) {
  const std::string_view host = after_scheme.substr(0, after_scheme.find_first_of("/?#"));
  return !host.empty() && alphanumeric(host.front()) &&
         std::ranges::all_of(host, [](char c) { return alphanumeric(c) || c == '.' || c == '-' || c == ':'; });
}

} // namespace

std::string way_to_root(std::string_view page) {
  std::string way;
  for (const char c : page)
    if (c == '/') way += "../";
  return way;
}

LinkTarget target_of(std::string_view to, std::string_view page, std::string_view root) {
  for (const std::string_view scheme : {"https://", "http://"})
    if (starts_with_ignoring_case(to, scheme)) {
      const std::string_view rest = to.substr(scheme.size());
      if (!has_plain_host(rest)) return {};
      return {LinkTarget::Kind::outside, std::string{scheme} + encoded_address(rest)};
    }
  const std::size_t hash = std::min(to.find('#'), to.size());
  const std::string_view path = to.substr(0, hash);
  const std::string_view anchor = to.substr(hash);
  if (anchor.size() == 1 || !std::ranges::all_of(anchor.substr(std::min<std::size_t>(1, anchor.size())), path_byte))
    return {};
  if (path.empty() || path == page) {
    if (!anchor.empty()) return {LinkTarget::Kind::site, std::string{anchor}};
    if (path.empty()) return {};
  }
  if (!is_site_path(path)) return {};
  std::string href{root};
  href.append(path).append(anchor);
  return {LinkTarget::Kind::site, std::move(href)};
}

} // namespace coeval

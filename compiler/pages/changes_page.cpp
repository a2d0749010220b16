// The page of changes: what the knowledge base's CHANGES.md says, day by day.
#include "pages/changes.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "pages/builders.hpp"
#include "pages/tell.hpp"

namespace coeval {
namespace {

std::string_view trimmed(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(" \t\r");
  if (begin == std::string_view::npos) return {};
  return text.substr(begin, text.find_last_not_of(" \t\r") - begin + 1);
}

// "2026-11-25" at the start of a title, if it is a day that exists.
std::string day_in(std::string_view title) {
  if (title.size() < 10 || (title.size() > 10 && title[10] != ' ')) return {};
  const std::string_view day = title.substr(0, 10);
  for (std::size_t i = 0; i < day.size(); ++i) {
    const bool dash = i == 4 || i == 7;
    if (dash ? day[i] != '-' : day[i] < '0' || day[i] > '9') return {};
  }
  const auto number = [&](std::size_t begin, std::size_t count) {
    int value = 0;
    for (const char c : day.substr(begin, count)) value = value * 10 + (c - '0');
    return value;
  };
  const int month = number(5, 2);
  const int date = number(8, 2);
  const bool exists = month >= 1 && month <= 12 && date >= 1 && date <= days_in_month(number(0, 4), month);
  return exists ? std::string{day} : std::string{};
}

} // namespace

std::vector<ChangeDay> parse_changes(std::string_view text) {
  std::vector<ChangeDay> days;
  bool in_item = false;
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    const std::string_view line = text.substr(begin, end - begin);
    const std::string_view said = trimmed(line);
    begin = end + 1;
    if (line.starts_with("## ")) {
      const std::string_view title = trimmed(line.substr(3));
      days.push_back({std::string{title}, day_in(title), {}});
      in_item = false;
    } else if (days.empty() || said.empty()) {
      continue;
    } else if (line.starts_with("- ")) {
      days.back().items.emplace_back(trimmed(line.substr(2)));
      in_item = true;
    } else if (in_item && (line.front() == ' ' || line.front() == '\t')) {
      std::string& item = days.back().items.back();
      item += (item.empty() ? "" : " ") + std::string{said};
    } else {
      in_item = false;
    }
  }
  return days;
}

void build_changes(const Site& site, const PlannedPage&, Page& page) {
  const std::vector<ChangeDay> days = parse_changes(site.options().changes);
  page.title = "Changes";
  page.eyebrow = "What is new";
  page.summary =
      days.empty() ? "What changed in this reference, and when."
                   : fmt::format("What changed in this reference, and when; the last time on {}.", days.front().title);
  add_section(page, "intro", {},
              {Paragraphs{{{plain(days.empty() ? "No changes are recorded yet."
                                               : "What changed for somebody who relies on the answers, the newest "
                                                 "first. The same list can be followed as a feed.")}}}});
  for (std::size_t i = 0; i < days.size(); ++i) {
    List list{{{}}};
    for (const std::string& item : days[i].items) list.groups.front().items.push_back({{plain(item)}, {}});
    std::vector<Block> blocks;
    if (!days[i].items.empty()) blocks.emplace_back(std::move(list));
    const std::string anchor = days[i].date.empty() ? fmt::format("change-{}", days.size() - i) : days[i].date;
    add_section(page, "list", days[i].title, std::move(blocks), anchor);
  }
}

} // namespace coeval

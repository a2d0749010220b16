// Everything is laid out first, from the top, so that what goes behind the rows can be drawn before them. Work and
// shapes grow with the number of rows and bands only.
#include "drawings/timeline.hpp"

#include <algorithm>
#include <cmath>

#include "drawings/axis.hpp"
#include "drawings/text.hpp"
#include "drawings/timeline_ends.hpp"

namespace coeval {
namespace {

constexpr double timeline_margin = 8;
constexpr double gutter = 11;                  // beside the axis, for the marks of open ends
constexpr double wide_enough_for_labels = 560; // for labels beside the bars
constexpr double most_for_labels = 0.36;       // of the width
constexpr std::size_t most_label_lines = 3;    // of a label
constexpr double subject_height = 14;          // of a bar
constexpr double other_height = 10;
constexpr double bracket_height = 4; // room for brackets above and below a bar
constexpr double rule_height = 13;   // of the gap that parts two groups
constexpr double name_height = 15;   // of a lane of band names
constexpr std::size_t most_lanes = 3;
constexpr double timeline_axis_height = 17;
constexpr double tall = 560; // a picture taller than this has its axis at the bottom too

struct Box { // across
  double left = 0;
  double right = 0;
};

// A row as it will be drawn.
struct Laid {
  const TimelineRow* row = nullptr;
  Extent extent;
  std::vector<std::string> lines; // of its label
  double top = 0;
  double bar = 0;        // the middle of its bar
  double bar_height = 0; // 0 for the rule that starts a group
  double height = 0;
};

struct Name { // of a band
  std::string text;
  double middle = 0;
  std::size_t lane = 0;
};

// What occurs in the picture, and so belongs in its legend; the subject's style where both occur.
struct Seen {
  std::optional<Style> certain;
  std::optional<Style> possible;
  bool uncertain = false;
  bool open = false;
};

std::vector<Extent> extents_of(const std::vector<TimelineRow>& rows) {
  std::vector<Extent> extents;
  extents.reserve(rows.size());
  for (const TimelineRow& row : rows) extents.push_back(row.label.empty() ? Extent{} : extent_of(row));
  return extents;
}

struct Days {
  Day first = 0;
  Day last = 0;
};
// From the earliest to the latest day that is told, with some room beside them.
std::optional<Days> days_of(const std::vector<Extent>& extents) {
  std::optional<Days> days;
  const auto take = [&](const std::optional<Day>& day) {
    if (!day) return;
    if (!days) days = Days{*day, *day};
    days = Days{std::min(days->first, *day), std::max(days->last, *day)};
  };
  for (const Extent& extent : extents)
    for (const EndRange& range : {extent.start, extent.end}) {
      take(range.earliest);
      take(range.latest);
    }
  if (!days) return {};
  constexpr Day shortest = 400;
  const Day length = days->last - days->first;
  const Day room = std::max(length / 25, (shortest - length) / 2);
  return Days{days->first - room, days->last + room};
}

class TimelineDrawing {
public:
  TimelineDrawing(const Timeline& timeline, double width)
      : timeline_(timeline), width_(width), beside_(width >= wide_enough_for_labels), rows_(extents_of(timeline.rows)),
        bands_(extents_of(timeline.bands)) {
    days_ = days_of(rows_);
    if (!days_) days_ = days_of(bands_);
    has_axis_ = days_.has_value();
    if (!days_) days_ = Days{0, 1};
    label_width_ = beside_ ? widest_label() : width_ - 2 * timeline_margin;
    const double left = beside_ ? timeline_margin + label_width_ + 10 : timeline_margin;
    axis_.emplace(days_->first, days_->last, left + gutter, width_ - timeline_margin - gutter);
  }

  Drawing draw() {
    name_bands();
    lay_out_rows();
    drawing_.width = width_;
    drawing_.title = one_line(timeline_.title);
    drawing_.description = describe(timeline_);
    draw_background();
    for (const Laid& laid : laid_) draw_row(laid);
    const double legend = rows_bottom_ + (has_axis_ && rows_bottom_ - rows_top_ > tall ? timeline_axis_height : 0);
    drawing_.height = draw_legend(legend + 8) + timeline_margin;
    if (auto* background = std::get_if<Rectangle>(&drawing_.shapes.front())) background->height = drawing_.height;
    return std::move(drawing_);
  }

private:
  double widest_label() const {
    double widest = 60;
    for (const TimelineRow& row : timeline_.rows) {
      if (widest >= most_for_labels * width_) break;
      widest = std::max(widest, text_width(row.label, style_of(row)));
    }
    return std::floor(std::min(widest, most_for_labels * width_)) + 1;
  }

  static Style style_of(const TimelineRow& row) { return row.subject ? Style::label_strong : Style::label; }

  // Where a range of days lies; a day reaches to its end.
  Box across(const std::optional<Day>& first, const std::optional<Day>& last) const {
    Box box{first ? axis_->x(*first) : axis_->left(), last ? axis_->x(*last + 1) : axis_->right()};
    constexpr double thinnest = 2;
    if (box.right - box.left < thinnest) {
      box.left = std::max(axis_->left(), std::min(box.left, axis_->right() - thinnest));
      box.right = box.left + thinnest;
    }
    return box;
  }

  // The part of a band that is drawn: where it surely lasted; nothing where that is not known or not in the picture.
  std::optional<Box> band_box(const Extent& band) const {
    if (!band.certain() || *band.end.earliest < days_->first || *band.start.latest > days_->last) return {};
    return Box{axis_->x(*band.start.latest), axis_->x(*band.end.earliest + 1)};
  }

  // Each name stands over the middle of its band, in the first lane with room for it; one that finds none is told in
  // the description only.
  void name_bands() {
    std::vector<std::size_t> order;
    for (std::size_t band = 0; band < bands_.size(); ++band)
      if (band_box(bands_[band])) order.push_back(band);
    std::ranges::stable_sort(order, {}, [&](std::size_t band) { return *bands_[band].start.latest; });
    band_order_ = order;
    std::vector<double> taken(most_lanes, 0);
    for (const std::size_t band : order) {
      const Box box = *band_box(bands_[band]);
      const double longest = std::max(box.right - box.left, 0.3 * (axis_->right() - axis_->left()));
      std::string text = shorten(timeline_.bands[band].label, Style::label_small, longest);
      const double half = text_width(text, Style::label_small) / 2;
      const double middle = std::clamp(std::round((box.left + box.right) / 2), axis_->left() - gutter + half,
                                       std::max(axis_->left() - gutter + half, axis_->right() + gutter - half));
      for (std::size_t lane = 0; lane < most_lanes; ++lane) {
        if (middle - half < taken[lane]) continue;
        taken[lane] = middle + half + 6;
        names_.push_back({std::move(text), middle, lane});
        lanes_ = std::max(lanes_, lane + 1);
        break;
      }
    }
  }

  void lay_out_rows() {
    names_bottom_ = timeline_margin / 2 + name_height * static_cast<double>(lanes_);
    rows_top_ = names_bottom_ + (has_axis_ ? timeline_axis_height : 0) + 4;
    double y = rows_top_ + 4;
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      const TimelineRow& row = timeline_.rows[i];
      Laid laid{.row = &row, .extent = rows_[i], .lines = {}, .top = y};
      if (row.label.empty()) {
        laid.height = rule_height;
      } else {
        laid.lines = wrap(row.label, style_of(row), label_width_, most_label_lines);
        laid.bar_height = row.subject ? subject_height : other_height;
        const double text = line_height(style_of(row)) * static_cast<double>(laid.lines.size());
        const double bar = laid.bar_height + 2 * bracket_height;
        laid.height = beside_ ? std::max(text, bar) + 6 : text + bar + 9;
        laid.bar = beside_ ? y + (laid.height - 6) / 2 : y + text + bracket_height + laid.bar_height / 2;
      }
      y += laid.height;
      laid_.push_back(std::move(laid));
    }
    rows_bottom_ = y;
  }

  void draw_background() {
    add(Rectangle{Style::background, 0, 0, width_, 0, 0});
    bool other = false;
    for (const std::size_t band : band_order_) {
      const Box box = *band_box(bands_[band]);
      add(Rectangle{other ? Style::band_other : Style::band, box.left, names_bottom_, box.right - box.left,
                    rows_bottom_ - names_bottom_, 0});
      other = !other;
    }
    if (has_axis_) draw_axis();
    for (Name& name : names_) {
      const double base =
          timeline_margin / 2 + name_height * static_cast<double>(name.lane) + ascent(Style::label_small);
      add(Lettering{Style::label_small, name.middle, base, Anchor::middle, std::move(name.text), {}});
      const double below = base + descent(Style::label_small);
      if (name.lane + 1 < lanes_) line(Style::tick, {{name.middle, below}, {name.middle, names_bottom_}});
    }
    // Guides of several subjects would say nothing of which is held against which.
    const auto subject = [](const Laid& laid) { return laid.row->subject && laid.bar_height > 0; };
    if (rows_.size() > 1 && std::ranges::count_if(laid_, subject) == 1)
      draw_guides(*std::ranges::find_if(laid_, subject));
  }

  void draw_axis() {
    const double below = rows_top_ - 3;
    const bool again = rows_bottom_ - rows_top_ > tall;
    for (Tick& tick : axis_->ticks()) {
      const double x = axis_->x(tick.day);
      line(Style::tick, {{x, below}, {x, rows_bottom_}});
      if (tick.label.empty()) continue;
      line(Style::axis, {{x, below - 10}, {x, below}});
      if (again)
        add(Lettering{
            Style::label_small, x + 3, rows_bottom_ + 3 + ascent(Style::label_small), Anchor::start, tick.label, {}});
      add(Lettering{Style::label_small, x + 3, below - 4, Anchor::start, std::move(tick.label), {}});
    }
    for (const double y : {below, rows_bottom_})
      line(Style::axis, {{axis_->left() - gutter, y}, {axis_->right() + gutter, y}});
  }

  // From the subject's ends through all rows, so that others can be held against it.
  void draw_guides(const Laid& laid) {
    if (!laid.extent.known()) return;
    const Box box = across(laid.extent.start.earliest, laid.extent.end.latest);
    if (laid.extent.start.earliest) line(Style::highlight, {{box.left, rows_top_ - 3}, {box.left, rows_bottom_}});
    if (laid.extent.end.latest) line(Style::highlight, {{box.right, rows_top_ - 3}, {box.right, rows_bottom_}});
  }

  void draw_row(const Laid& laid) {
    if (laid.bar_height == 0) {
      const double y = laid.top + laid.height / 2 - 3;
      return line(Style::axis, {{timeline_margin, y}, {width_ - timeline_margin, y}});
    }
    const TimelineRow& row = *laid.row;
    const Style style = style_of(row);
    const double text = line_height(style) * static_cast<double>(laid.lines.size());
    double base = (beside_ ? laid.bar - text / 2 : laid.top) + ascent(style) + 1;
    for (const std::string& words : laid.lines) {
      add(Lettering{style, timeline_margin, base, Anchor::start, words, row.to});
      base += line_height(style);
    }
    if (!laid.extent.known()) {
      add(Lettering{Style::label_small,
                    axis_->left(),
                    laid.bar + ascent(Style::label_small) / 2,
                    Anchor::start,
                    "no date known",
                    {}});
      return;
    }
    draw_bar(laid);
  }

  void draw_bar(const Laid& laid) {
    const auto& [start, end] = laid.extent;
    const double top = laid.bar - laid.bar_height / 2;
    const double bottom = top + laid.bar_height;
    const bool subject = laid.row->subject;
    const bool certain = laid.extent.certain();
    const bool exact = certain && start.earliest == start.latest && end.earliest == end.latest;
    if (!exact) {
      Box box = across(start.earliest, end.latest);
      if (certain) { // which may have been made thicker, to be seen
        const Box inner = across(start.latest, end.earliest);
        box = {std::min(box.left, inner.left), std::max(box.right, inner.right)};
      }
      const Style style = subject ? Style::possible : Style::possible_other;
      add(Rectangle{style, box.left, top, box.right - box.left, laid.bar_height, 0});
      seen_.possible = std::min(style, seen_.possible.value_or(style));
    }
    if (certain) {
      const Box box = across(start.latest, end.earliest);
      const Style style = subject ? Style::certain : Style::certain_other;
      add(Rectangle{style, box.left, top, box.right - box.left, laid.bar_height, 0});
      seen_.certain = std::min(style, seen_.certain.value_or(style));
    }
    const bool start_by_end = !start.earliest && start.latest == end.latest;
    const bool end_by_start = !end.latest && end.earliest == start.earliest;
    if (!start_by_end) bracket(start, top - 1.5, -1);
    if (!end_by_start) bracket(end, bottom + 1.5, 1);
    if (!start.earliest) open_end(axis_->left() - 2, laid.bar, -1);
    if (!end.latest) open_end(axis_->right() + 2, laid.bar, 1);
  }

  // Over the days on which the end can have been; it stays open at a side that has no bound.
  void bracket(const EndRange& range, double y, double away) {
    if ((!range.earliest && !range.latest) || range.earliest == range.latest) return;
    const Box box = across(range.earliest, range.latest);
    constexpr double worth_it = 4;
    if (box.right - box.left < worth_it) return;
    const double far = y + away * (bracket_height - 1.5);
    Polyline shape{Style::uncertain_end, {}, false};
    if (range.earliest) shape.points.emplace_back(box.left, y);
    shape.points.emplace_back(box.left, far);
    shape.points.emplace_back(box.right, far);
    if (range.latest) shape.points.emplace_back(box.right, y);
    add(std::move(shape));
    seen_.uncertain = true;
  }

  void open_end(double x, double y, double away) {
    constexpr double deep = 4;
    for (const double step : {0.0, deep})
      line(Style::open_end, {{x + away * step, y - deep}, {x + away * (step + deep), y}, {x + away * step, y + deep}});
    seen_.open = true;
  }

  // Explains what occurs in the picture. Gives its lower edge.
  double draw_legend(double top) {
    constexpr double sample = 24;
    constexpr double height = 16;
    double x = timeline_margin;
    double y = top;
    const auto item = [&](bool wanted, std::string words, const auto& draw_sample) {
      if (!wanted) return;
      const double wide = sample + 5 + text_width(words, Style::label_small);
      if (x > timeline_margin && x + wide > width_ - timeline_margin) {
        x = timeline_margin;
        y += height;
      }
      draw_sample(x, y + height / 2);
      add(Lettering{Style::label_small, x + sample + 5, y + height / 2 + 4, Anchor::start, std::move(words), {}});
      x += wide + 12;
    };
    const auto block = [&](Style style) {
      return [this, style](double left, double middle) {
        add(Rectangle{style, left, middle - other_height / 2, sample, other_height, 0});
      };
    };
    item(seen_.certain.has_value(), "for sure", block(seen_.certain.value_or(Style::certain)));
    item(seen_.possible.has_value(), "possibly", block(seen_.possible.value_or(Style::possible)));
    item(seen_.uncertain, "began or ended in here", [&](double left, double middle) {
      const double near = middle + 2;
      line(Style::uncertain_end, {{left, near}, {left, near - 4}, {left + sample, near - 4}, {left + sample, near}});
    });
    item(seen_.open, "no limit known", [&](double left, double middle) { open_end(left + 8, middle, 1); });
    return x > timeline_margin ? y + height : top;
  }

  void add(Shape shape) { drawing_.shapes.push_back(std::move(shape)); }
  void line(Style style, std::vector<std::pair<double, double>> points) {
    add(Polyline{style, std::move(points), false});
  }

  const Timeline& timeline_;
  double width_;
  bool beside_; // labels stand beside the bars, not above them
  std::vector<Extent> rows_;
  std::vector<Extent> bands_;
  std::optional<Days> days_;
  bool has_axis_ = false;
  double label_width_ = 0;
  std::optional<Axis> axis_;
  std::vector<std::size_t> band_order_;
  std::vector<Name> names_;
  std::size_t lanes_ = 0;
  std::vector<Laid> laid_;
  double names_bottom_ = 0;
  double rows_top_ = 0;
  double rows_bottom_ = 0;
  Seen seen_;
  Drawing drawing_;
};

} // namespace

Drawing draw_timeline(const Timeline& timeline, double width) {
  constexpr double narrowest = 200;
  constexpr double widest = 4000;
  return TimelineDrawing{timeline, width >= narrowest ? std::min(std::floor(width), widest) : narrowest}.draw();
}

} // namespace coeval

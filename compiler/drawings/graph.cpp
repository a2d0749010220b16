// Layout is done in two directions: along the flow, from layer to layer, and across it. Only the last step turns them
// into x and y. On a narrow picture the flow goes down; on a wide one it goes to the right where it fits.
#include "drawings/graph.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "drawings/directed.hpp"
#include "drawings/edge_labels.hpp"
#include "drawings/graph_words.hpp"
#include "drawings/layers.hpp"
#include "drawings/text.hpp"

namespace coeval {
namespace {

constexpr double graph_margin = 8;
constexpr double padding = 8;               // inside a node
constexpr double gap_across = 14;           // between neighbours of a layer
constexpr double wide_enough_to_flow = 560; // for a flow to the right
constexpr double narrowest_node = 96;
constexpr double widest_node = 190;
constexpr std::size_t most_across_flow = 10; // nodes in a layer, one below the other
constexpr std::size_t most_node_lines = 4;   // of a node's label
constexpr std::size_t most_note_lines = 3;
constexpr double longest_label = 130; // of an edge
constexpr double arrow_length = 8;
constexpr double arrow_half = 4; // of its width
constexpr double loop_step = 8;
constexpr std::size_t most_loops = 4; // more are drawn over each other

struct NodeBox {
  std::vector<std::string> label;
  std::vector<std::string> note;
  double width = 0;
  double height = 0;
  std::size_t loops = 0;

  // How far its edges to itself reach out of it.
  [[nodiscard]] double loop_reach() const {
    return loops == 0 ? 0 : 14 + loop_step * static_cast<double>(std::min(loops, most_loops));
  }
};

struct Place { // along the flow, and across it
  double along = 0;
  double across = 0;
};

double even(double size) { return 2 * std::ceil(size / 2); }

class GraphDrawing {
public:
  GraphDrawing(const Graph& graph, bool reduce, double width) : graph_(graph), width_(width) { choose_edges(reduce); }

  Drawing draw() {
    drawing_.title = one_line(graph_.title);
    drawing_.description = describe(graph_, shown_);
    lay_out();
    size_layers();
    const double across = across_size_ + 2 * graph_margin;
    const double along = along_size_ + 2 * graph_margin;
    drawing_.width = to_right_ ? width_ : std::max(width_, across);
    drawing_.height = to_right_ ? across : along;
    shift_ = {graph_margin, graph_margin};
    (to_right_ ? shift_.along : shift_.across) += std::floor((drawing_.width - (to_right_ ? along : across)) / 2);
    add(Rectangle{Style::background, 0, 0, drawing_.width, drawing_.height, 0});
    spread_ports();
    for (std::size_t i = 0; i < shown_.size(); ++i) draw_edge(i);
    for (std::size_t node = 0; node < boxes_.size(); ++node) draw_node(node);
    for (std::size_t i = 0; i < shown_.size(); ++i) draw_edge_label(i);
    return std::move(drawing_);
  }

private:
  // ---- what is drawn ----

  void choose_edges(bool reduce) {
    std::vector<Arc> arcs;
    std::vector<std::size_t> whose;
    for (std::size_t i = 0; i < graph_.edges.size(); ++i) {
      const GraphEdge& edge = graph_.edges[i];
      if (edge.from >= graph_.nodes.size() || edge.to >= graph_.nodes.size()) continue;
      arcs.push_back({edge.from, edge.to, edge.certain});
      whose.push_back(i);
    }
    std::vector<bool> implied(arcs.size(), false);
    if (reduce) implied = implied_arcs(graph_.nodes.size(), arcs);
    for (std::size_t i = 0; i < arcs.size(); ++i)
      if (!implied[i]) shown_.push_back(whose[i]);
    // Arcs from here on: those between two nodes, turned so that they close no circle.
    arcs.clear();
    for (const std::size_t edge : shown_) arcs.push_back({graph_.edges[edge].from, graph_.edges[edge].to, true});
    turned_ = backward_arcs(graph_.nodes.size(), arcs);
    way_of_.assign(shown_.size(), no_node);
    for (std::size_t i = 0; i < arcs.size(); ++i) {
      if (arcs[i].from == arcs[i].to) continue;
      way_of_[i] = arcs_.size();
      arcs_.push_back(turned_[i] ? Arc{arcs[i].to, arcs[i].from, true} : arcs[i]);
    }
  }

  [[nodiscard]] const GraphEdge& edge(std::size_t shown) const { return graph_.edges[shown_[shown]]; }

  // ---- where it lies ----

  void lay_out() {
    boxes_.assign(graph_.nodes.size(), {});
    for (std::size_t i = 0; i < shown_.size(); ++i)
      if (way_of_[i] == no_node) ++boxes_[edge(i).from].loops;
    if (width_ < wide_enough_to_flow || boxes_.empty() || !lay_out_to_right()) lay_out_downwards();
    std::vector<double> sizes(layers_.knots.size());
    std::vector<std::size_t> passing(layers_.layers.size(), 0);
    for (const Knot& knot : layers_.knots) passing[knot.layer] += knot.node == no_node ? 1U : 0U;
    for (std::size_t i = 0; i < sizes.size(); ++i) {
      const Knot& knot = layers_.knots[i];
      // However many edges pass a layer, they make the picture no more than half as wide again.
      sizes[i] = knot.node == no_node
                     ? (static_cast<double>(passing[knot.layer]) * (2 + gap_across) > width_ / 4 ? 0 : 2)
                     : size_across(knot.node);
    }
    std::size_t crowd = 0;
    for (const auto& layer : layers_.layers) crowd = std::max(crowd, layer.size());
    const bool crowded = static_cast<double>(crowd) * gap_across > width_ / 2 && !to_right_;
    const double gap = crowded ? std::max(2.0, std::floor(width_ / 2 / static_cast<double>(crowd))) : gap_across;
    across_ = place_across(layers_, sizes, gap, to_right_ ? 0 : width_ - 2 * graph_margin);
    double least = std::numeric_limits<double>::infinity();
    double most = 0;
    for (std::size_t i = 0; i < sizes.size(); ++i) {
      least = std::min(least, across_[i] - sizes[i] / 2);
      most = std::max(most, across_[i] + sizes[i] / 2);
    }
    if (sizes.empty()) least = 0;
    for (double& across : across_) across -= least;
    across_size_ = most - least;
  }

  bool lay_out_to_right() {
    layers_ = arrange_in_layers(graph_.nodes.size(), arcs_, most_across_flow);
    const auto count = static_cast<double>(layers_.layers.size());
    gap_along_ = std::max(44.0, std::min(longest_label, widest_edge_label()) + 26);
    const double room = std::floor((width_ - 2 * graph_margin - (count - 1) * gap_along_) / count);
    if (room < narrowest_node) return false;
    to_right_ = true;
    size_nodes(std::min(room, widest_node));
    // What is left makes the edges longer, and easier to follow.
    constexpr double most_more = 50;
    const double left_over = width_ - 2 * graph_margin - (count - 1) * gap_along_ - count * boxes_.front().width;
    if (count > 1) gap_along_ += std::floor(std::clamp(left_over / (count - 1), 0.0, most_more));
    return true;
  }

  void lay_out_downwards() {
    to_right_ = false;
    const double room = width_ - 2 * graph_margin;
    const auto most = static_cast<std::size_t>(std::max(1.0, (room + gap_across) / (narrowest_node + gap_across)));
    layers_ = arrange_in_layers(graph_.nodes.size(), arcs_, most);
    gap_along_ = widest_edge_label() > 0 ? 46 : 34;
    double widest = widest_node;
    for (const auto& layer : layers_.layers) {
      double nodes = 0;
      double taken = gap_across * static_cast<double>(layer.size() - 1);
      for (const std::size_t knot : layer) {
        if (layers_.knots[knot].node == no_node) continue;
        ++nodes;
        taken += 2 * boxes_[layers_.knots[knot].node].loop_reach();
      }
      if (nodes > 0) widest = std::min(widest, std::floor((room - taken) / nodes));
    }
    size_nodes(std::max(widest, narrowest_node));
  }

  double widest_edge_label() const {
    double widest = 0;
    for (const std::size_t edge : shown_)
      if (const double width = text_width(graph_.edges[edge].label, Style::label_small); width <= longest_label)
        widest = std::max(widest, width);
    return widest;
  }

  static Style style_of(const GraphNode& node) { return node.subject ? Style::label_strong : Style::label; }

  // No wider than what stands in them needs.
  void size_nodes(double most) {
    double widest = 0;
    for (std::size_t i = 0; i < boxes_.size(); ++i) {
      const GraphNode& node = graph_.nodes[i];
      NodeBox& box = boxes_[i];
      box.label = wrap(node.label, style_of(node), most - 2 * padding, most_node_lines);
      if (!node.note.empty()) box.note = wrap(node.note, Style::label_small, most - 2 * padding, most_note_lines);
      for (const std::string& line : box.label) widest = std::max(widest, text_width(line, style_of(node)));
      for (const std::string& line : box.note) widest = std::max(widest, text_width(line, Style::label_small));
      box.height = even(2 * padding + static_cast<double>(box.label.size()) * line_height(Style::label) +
                        static_cast<double>(box.note.size()) * line_height(Style::label_small) - 2);
    }
    for (NodeBox& box : boxes_) box.width = std::min(even(widest + 2 * padding), 2 * std::floor(most / 2));
  }

  // Its edges to itself count on both sides, so that it stays in the middle.
  double size_across(std::size_t node) const {
    const NodeBox& box = boxes_[node];
    return even((to_right_ ? box.height : box.width) + 2 * box.loop_reach());
  }
  double half_along(std::size_t node) const { return (to_right_ ? boxes_[node].width : boxes_[node].height) / 2; }
  double half_across(std::size_t node) const { return (to_right_ ? boxes_[node].height : boxes_[node].width) / 2; }

  void size_layers() {
    double at = 0;
    for (const auto& layer : layers_.layers) {
      double half = 0;
      for (const std::size_t knot : layer)
        if (layers_.knots[knot].node != no_node) half = std::max(half, half_along(layers_.knots[knot].node));
      middle_.push_back(at + half);
      half_.push_back(half);
      at += 2 * half + gap_along_;
    }
    along_size_ = std::max(0.0, at - gap_along_);
  }

  Place middle_of(std::size_t knot) const { return {middle_[layers_.knots[knot].layer], across_[knot]}; }

  // Edges at one side of a node leave it beside each other, in the order of where they go.
  void spread_ports() {
    start_port_.assign(arcs_.size(), 0);
    end_port_.assign(arcs_.size(), 0);
    for (const bool at_start : {true, false}) {
      std::vector<std::vector<std::size_t>> at_node(boxes_.size());
      for (std::size_t arc = 0; arc < arcs_.size(); ++arc)
        at_node[at_start ? arcs_[arc].from : arcs_[arc].to].push_back(arc);
      const auto next_across = [&](std::size_t arc) {
        const auto& way = layers_.ways[arc];
        return across_[at_start ? way[1] : way[way.size() - 2]];
      };
      for (std::size_t node = 0; node < at_node.size(); ++node) {
        auto& here = at_node[node];
        std::ranges::stable_sort(here, {}, next_across);
        const auto count = static_cast<double>(here.size());
        const double step = std::min(16.0, (2 * half_across(node) - 2 * padding) / std::max(1.0, count));
        for (std::size_t i = 0; i < here.size(); ++i)
          (at_start ? start_port_ : end_port_)[here[i]] =
              across_[node] + (static_cast<double>(i) - (count - 1) / 2) * step;
      }
    }
  }

  // ---- shapes ----

  std::pair<double, double> point(Place place) const {
    const double along = std::round((place.along + shift_.along) * 10) / 10;
    const double across = std::round((place.across + shift_.across) * 10) / 10;
    return to_right_ ? std::pair{along, across} : std::pair{across, along};
  }

  void add(Shape shape) { drawing_.shapes.push_back(std::move(shape)); }

  void straight(Style style, Place from, Place to) {
    if (from.along == to.along && from.across == to.across) return;
    add(Polyline{style, {point(from), point(to)}, false});
  }

  // Leaves and arrives along the flow.
  void bend(Style style, Place from, Place to) {
    constexpr int samples = 10;
    for (int i = 0; i <= samples; ++i) {
      const auto [x, y] = point(on_bend(from, to, static_cast<double>(i) / samples));
      edges_.take(x, y, x, y);
    }
    if (std::abs(from.across - to.across) < 0.5) return straight(style, from, to);
    const double half = (to.along - from.along) / 2;
    add(Curve{style, point(from), point({from.along + half, from.across}), point({to.along - half, to.across}),
              point(to)});
  }

  static Place on_bend(Place from, Place to, double share) {
    const double rest = 1 - share;
    const double towards = 3 * rest * share * share + share * share * share; // weight of the end, across
    const double along = 1.5 * rest * share + share * share * share;
    return {from.along + (to.along - from.along) * along, from.across + (to.across - from.across) * towards};
  }

  // With its tip at `tip`; `away` is where it comes from, along and across the flow.
  void arrow_head(Place tip, Place away) {
    const Place base{tip.along + away.along * arrow_length, tip.across + away.across * arrow_length};
    const Place side{away.across * arrow_half, away.along * arrow_half};
    add(Polyline{Style::arrow_head,
                 {point(tip), point({base.along + side.along, base.across + side.across}),
                  point({base.along - side.along, base.across - side.across})},
                 true});
  }

  void draw_edge(std::size_t index) {
    const Style style = edge(index).certain ? Style::edge : Style::edge_possible;
    if (way_of_[index] == no_node) return draw_loop(index, style);
    const std::size_t arc = way_of_[index];
    const auto& way = layers_.ways[arc];
    const std::size_t from = arcs_[arc].from;
    const std::size_t to = arcs_[arc].to;
    Place here{middle_of(from).along + half_along(from), start_port_[arc]};
    const Place end{middle_of(to).along - half_along(to), end_port_[arc]};
    if (turned_[index]) {
      arrow_head(here, {1, 0});
      here.along += arrow_length;
    } else {
      arrow_head(end, {-1, 0});
    }
    const Place stop{end.along - (turned_[index] ? 0 : arrow_length), end.across};
    for (std::size_t i = 1; i < way.size(); ++i) {
      const std::size_t before = layers_.knots[way[i - 1]].layer;
      const std::size_t layer = layers_.knots[way[i]].layer;
      const Place leave{std::max(here.along, middle_[before] + half_[before]), here.across};
      const double across = i + 1 < way.size() ? across_[way[i]] : end.across;
      const Place arrive{std::min(middle_[layer] - half_[layer], i + 1 < way.size() ? end.along : stop.along), across};
      straight(style, here, leave);
      bend(style, leave, arrive);
      here = i + 1 < way.size() ? Place{middle_[layer] + half_[layer], across} : arrive;
      if (i + 1 < way.size()) straight(style, arrive, here);
    }
    straight(style, here, stop);
  }

  // Out of the node's side and back into it.
  void draw_loop(std::size_t index, Style style) {
    const std::size_t node = edge(index).from;
    const Place middle = middle_of(node);
    const double side = middle.across + half_across(node);
    const double depth = 14 + loop_step * static_cast<double>(std::min(loops_drawn(node), most_loops - 1));
    const double half = std::min(7.0, half_along(node) / 2);
    const Place from{middle.along - half, side};
    const Place to{middle.along + half, side};
    const double out = side + arrow_length;
    add(Curve{style, point(from), point({from.along - 2, side + depth}), point({to.along, side + depth}),
              point({to.along, out})});
    arrow_head(to, {0, 1});
  }

  std::size_t loops_drawn(std::size_t node) {
    if (loops_.empty()) loops_.assign(boxes_.size(), 0);
    return loops_[node]++;
  }

  void draw_node(std::size_t node) {
    const GraphNode& told = graph_.nodes[node];
    const NodeBox& box = boxes_[node];
    const auto middle = point(middle_of(node));
    const double x = middle.first;
    const double y = middle.second;
    add(Rectangle{told.subject ? Style::node : Style::node_other, x - box.width / 2, y - box.height / 2, box.width,
                  box.height, 4});
    taken_.take(x - box.width / 2, y - box.height / 2, x + box.width / 2, y + box.height / 2);
    double base = y - box.height / 2 + padding - 1;
    const auto write = [&](const std::vector<std::string>& lines, Style style) {
      for (const std::string& line : lines) {
        add(Lettering{style, x, base + ascent(style) + 1, Anchor::middle, line, told.to});
        base += line_height(style);
      }
    };
    write(box.label, style_of(told));
    write(box.note, Style::label_small);
  }

  // Beside the edge, where there is room, best where no edge runs through; else it is told in the description only.
  void draw_edge_label(std::size_t index) {
    const std::string label = one_line(edge(index).label);
    const double width = text_width(label, Style::label_small);
    if (label.empty() || width > longest_label) return;
    const auto places = label_places(index, width);
    for (const bool over_edges : {false, true})
      for (const LabelPlace& place : places) {
        constexpr double apart = 2;
        const double top = place.base - ascent(Style::label_small);
        const double bottom = place.base + descent(Style::label_small);
        const double left = place.left - apart;
        const double right = place.left + width + apart;
        if (left < 0 || right > drawing_.width || top < 0 || bottom > drawing_.height) continue;
        if (!taken_.is_free(left, top, right, bottom)) continue;
        if (!over_edges && !edges_.is_free(left, top, right, bottom)) continue;
        taken_.take(left, top, right, bottom);
        return add(Lettering{Style::label_small, place.left, place.base, Anchor::start, label, {}});
      }
  }

  struct LabelPlace {
    double left = 0;
    double base = 0;
  };

  // Beside the edge in the gaps between layers, those nearest to its start first. A slanting edge has its label in the
  // corner that it leaves free, better the one that lies away from the other edges of its node.
  std::vector<LabelPlace> label_places(std::size_t index, double width) const {
    std::vector<LabelPlace> places;
    const double up = ascent(Style::label_small);
    const double down = descent(Style::label_small);
    const auto take = [&](std::pair<double, double> at, double slant) {
      const auto [x, y] = at;
      constexpr double steep = 12;
      const LabelPlace left_above{x - width - 5, y - down - 1};
      const LabelPlace right_above{x + 5, y - down - 1};
      const LabelPlace left_below{x - width - 5, y + up + 1};
      const LabelPlace right_below{x + 5, y + up + 1};
      std::vector<LabelPlace> around;
      if (slant < -steep)
        around = {left_above, right_below};
      else if (slant > steep)
        around = to_right_ ? std::vector{left_below, right_above} : std::vector{right_above, left_below};
      else
        around = to_right_ ? std::vector<LabelPlace>{{x - width / 2, y - 5}, {x - width / 2, y + up + 4}}
                           : std::vector<LabelPlace>{{x + 6, y + up / 2}, {x - width - 6, y + up / 2}};
      for (const LabelPlace& place : around) places.push_back({std::round(place.left), std::round(place.base)});
    };
    if (way_of_[index] == no_node) {
      const std::size_t node = edge(index).from;
      const Place middle = middle_of(node);
      const double side = middle.across + half_across(node);
      if (to_right_)
        take(point({middle.along + 14 + width / 2, side + 5}), 0);
      else
        take(point({middle.along, side + boxes_[node].loop_reach() - 8}), 0);
      return places;
    }
    const std::size_t arc = way_of_[index];
    const auto& way = layers_.ways[arc];
    constexpr std::size_t most_gaps = 6;
    for (std::size_t i = 0; i < std::min(way.size() - 1, most_gaps); ++i) {
      const std::size_t before = layers_.knots[way[i]].layer;
      const Place from{middle_[before] + half_[before], i == 0 ? start_port_[arc] : across_[way[i]]};
      const Place to{from.along + gap_along_, i + 2 == way.size() ? end_port_[arc] : across_[way[i + 1]]};
      for (const double share : {0.5, 0.3, 0.7, 0.15, 0.85})
        take(point(on_bend(from, to, share)), to.across - from.across);
    }
    return places;
  }

  const Graph& graph_;
  double width_;
  std::vector<std::size_t> shown_;  // positions in the graph's edges
  std::vector<bool> turned_;        // for each of those
  std::vector<std::size_t> way_of_; // position in `arcs_`; no_node for an edge from a node to itself
  std::vector<Arc> arcs_;
  Layers layers_;
  bool to_right_ = false;
  double gap_along_ = 0;
  std::vector<NodeBox> boxes_;
  std::vector<double> across_; // of each knot's middle
  double across_size_ = 0;
  double along_size_ = 0;
  std::vector<double> middle_; // of each layer, along
  std::vector<double> half_;   // of its thickness
  std::vector<double> start_port_;
  std::vector<double> end_port_;
  std::vector<std::size_t> loops_; // drawn so far, of each node
  Place shift_;
  TakenRoom taken_; // by nodes and labels
  TakenRoom edges_; // points on edges
  Drawing drawing_;
};

} // namespace

Drawing draw_graph(const Graph& graph, bool reduce, double width) {
  constexpr double narrowest = 200;
  constexpr double widest = 4000;
  return GraphDrawing{graph, reduce, width >= narrowest ? std::min(std::floor(width), widest) : narrowest}.draw();
}

} // namespace coeval

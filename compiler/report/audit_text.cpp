#include <algorithm>

#include <fmt/format.h>

#include "diagnose/near.hpp"
#include "report/audit.hpp"
#include "report/text_parts.hpp"

namespace coeval {
namespace {

// What one screen has room for; --all shows everything.
constexpr std::size_t most_piece_lines = 18;
constexpr std::size_t most_rows_of_piece = 8;
constexpr std::size_t most_loose = 4;
constexpr std::size_t most_parcels = 4;
constexpr std::size_t most_complete = 12;
constexpr std::size_t most_offered = 2;

// A line of a piece: where, what, why.
struct Row {
  std::string where;
  std::string what;
  std::string why;
  Tone tone = Tone::no;
};

std::string rows_text(const std::vector<Row>& rows, std::size_t most, std::string_view rest, TextStyle style) {
  const std::size_t shown = std::min(rows.size(), most);
  std::size_t where = 0;
  std::size_t what = 0;
  for (std::size_t i = 0; i < shown; ++i) {
    where = std::max(where, rows[i].where.size());
    what = std::max(what, rows[i].what.size());
  }
  where = std::min(where, columns(style) / 3);
  std::string text;
  for (std::size_t i = 0; i < shown; ++i) {
    const std::size_t indent = 2 + std::max(where, rows[i].where.size()) + 2 + what + 2;
    text += trimmed(fmt::format("  {:<{}}  {}  {}", rows[i].where, where,
                                toned(fmt::format("{:<{}}", rows[i].what, what), rows[i].tone, style),
                                wrap(rows[i].why, indent, style)));
  }
  if (rows.size() > shown) text += fmt::format("  and {} more; {}\n", rows.size() - shown, rest);
  return text;
}

class AuditTelling {
public:
  AuditTelling(const ReportInput& input, const AuditReport& report, TextStyle style)
      : input_(input), report_(report), shelf_(report.shelf), style_(style) {}

  std::string tell() const { return head() + pieces() + complete() + offered() + loose() + parcels() + advice(); }

private:
  std::string head() const {
    const Audit& audit = report_.audit;
    const auto complete = static_cast<std::size_t>(std::ranges::count_if(audit.pieces, &PieceAudit::complete));
    std::string slots;
    std::size_t all = 0;
    for (std::size_t i = 0; i < slot_state_count; ++i) {
      const SlotState state{static_cast<std::uint8_t>(i)};
      const std::size_t count = audit.count(state);
      all += count;
      if (count > 0)
        slots += fmt::format("{}{} {}", slots.empty() ? "" : ", ", count,
                             state == SlotState::reproduction ? (count == 1 ? "a reproduction" : "reproductions")
                                                              : name(state));
    }
    const std::string who = shelf_.name.empty() ? std::string{} : printable(shelf_.name) + ": ";
    std::string line = fmt::format("{}{}, {} complete", who, counted(audit.pieces.size(), "piece"), complete);
    if (all > 0) line += fmt::format("; {}: {}", counted(all, "slot"), slots);
    return wrap(line, 0, style_) + "\n";
  }

  std::string heading(const PieceAudit& audit) const {
    const OwnedPiece& piece = shelf_[audit.piece];
    std::string words{piece.issue ? input_.kb.issues[at(*piece.issue)].address
                                  : input_.kb.figures[at(*piece.figure)].id};
    if (!audit.slots.empty())
      words += fmt::format(", {} of {} right", audit.count(SlotState::right), counted(audit.slots.size(), "slot"));
    else if (piece.issue && input_.kb.issues[at(*piece.issue)].bare)
      words += ", sold bare";
    if (const auto state = parcel_state(piece); state && *state >= ParcelState::won && *state != ParcelState::arrived)
      words += ", on its way";
    return fmt::format("{}  {}\n", piece.id, wrap(words, piece.id.size() + 2, style_));
  }

  std::optional<ParcelState> parcel_state(const OwnedPiece& piece) const {
    return piece.received.purchase ? shelf_[*piece.received.purchase].state() : std::nullopt;
  }

  Row row(const PieceAudit& audit, const Finding& finding) const {
    std::string where;
    if (finding.slot)
      where = slot_name(audit, *finding.slot) + ": ";
    else if (finding.part && !shelf_[*finding.part].slot.empty() && finding.fit != nullptr)
      where = shelf_[*finding.part].slot + ": ";
    where += finding.part ? shelf_[*finding.part].id : finding.slot ? "-" : "the piece";
    return {printable(where), finding_word(finding), finding_reason(input_, report_, audit, finding),
            is_wrong(finding.trouble) ? Tone::no : Tone::open};
  }

  std::string slot_name(const PieceAudit& audit, std::size_t slot) const {
    return slots_of(input_.kb.issues[at(*shelf_[audit.piece].issue)])[slot].name;
  }

  std::string block(const PieceAudit& audit) const {
    std::vector<Row> rows;
    for (const Finding& finding : audit.findings) rows.push_back(row(audit, finding));
    if (report_.every_slot)
      for (std::size_t i = 0; i < audit.slots.size(); ++i)
        if (audit.slots[i].state == SlotState::right) {
          const PartFit& fit = *audit.slots[i].fit;
          rows.push_back({printable(fmt::format("{}: {}", slot_name(audit, i), shelf_[*audit.slots[i].part].id)),
                          std::string{name(fit.verdict)}, fit_reason(input_.kb, fit), Tone::yes});
        }
    return heading(audit) + rows_text(rows, report_.every_slot ? rows.size() : most_rows_of_piece,
                                      fmt::format("`coeval audit {}` shows them", shelf_[audit.piece].id), style_);
  }

  std::string pieces() const {
    std::string text;
    std::size_t lines = 0;
    std::size_t shown = 0;
    std::size_t troubled = 0;
    bool full = false;
    for (const PieceAudit& audit : report_.audit.pieces) {
      if (audit.findings.empty() && !report_.every_slot) continue;
      ++troubled;
      if (full) continue;
      const std::string told = "\n" + block(audit);
      lines += static_cast<std::size_t>(std::ranges::count(told, '\n'));
      full = !report_.every_slot && lines > most_piece_lines && shown > 0;
      if (full) continue;
      text += told;
      ++shown;
    }
    if (troubled > shown)
      text += fmt::format("\nand {} with something wrong or open; --all shows them\n",
                          counted(troubled - shown, "more piece"));
    return text;
  }

  std::string offered() const {
    std::string text;
    std::size_t count = 0;
    for (const PieceAudit& audit : report_.audit.offered)
      if (report_.every_slot || count++ < most_offered) text += block(audit);
    if (text.empty()) return text;
    if (count > most_offered)
      text += fmt::format("and {}; --all shows them\n", counted(count - most_offered, "more piece"));
    return "\noffered, and not owned\n" + text;
  }

  std::string complete() const {
    if (report_.every_slot) return {};
    std::string ids;
    std::size_t count = 0;
    for (const PieceAudit& audit : report_.audit.pieces) {
      if (!audit.findings.empty()) continue;
      if (count++ < most_complete) ids += fmt::format("{}{}", ids.empty() ? "" : ", ", shelf_[audit.piece].id);
    }
    if (count > most_complete) ids += fmt::format(" and {} more", count - most_complete);
    return ids.empty() ? ids : "\nnothing to do  " + wrap(ids, 15, style_) + "\n";
  }

  std::string loose() const {
    const std::vector<LooseAudit>& list = report_.audit.loose;
    std::vector<Row> rows;
    for (const LooseAudit& loose : list) {
      const std::string& id = shelf_[loose.part].id;
      for (const Finding& finding : loose.findings)
        if (finding.trouble != Trouble::doubtful)
          rows.push_back({id, finding_word(finding), finding_reason(input_, report_, PieceAudit{}, finding),
                          is_wrong(finding.trouble) ? Tone::no : Tone::open});
      rows.push_back({id, loose_word(loose), home_words(loose), loose.helped > 0 ? Tone::yes : Tone::open});
    }
    if (rows.empty()) return {};
    return "\nloose\n" + rows_text(rows, report_.every_slot ? rows.size() : most_loose, "--all shows them", style_);
  }

  static std::string loose_word(const LooseAudit& loose) {
    if (loose.can_be == Remaining::reproductions) return "reproduction";
    if (loose.can_be == Remaining::mixed) return "doubtful";
    return loose.helped > 0 ? "of use" : loose.takers > 0 ? "spare" : "no place";
  }

  std::string home_words(const LooseAudit& loose) const {
    const std::string what = identity_words(input_.kb, report_.judge.could_be(report_.judge.kind(loose.part)), 2);
    if (loose.can_be == Remaining::nothing) return "nothing that is entered is left that it can be";
    if (loose.can_be == Remaining::reproductions) return what;
    if (!loose.best)
      return what + (loose.takers == 0 ? "; no owned piece takes it"
                                       : fmt::format("; {}, all filled as well", counted(loose.takers, "slot")));
    const OwnedPiece& piece = shelf_[loose.best->piece];
    return fmt::format(
        "{}; {} of {} better filled with it, first `{}`, {} ({})", what, loose.helped, counted(loose.takers, "slot"),
        piece.id, slots_of(input_.kb.issues[at(*piece.issue)])[loose.best->slot].name, name(loose.best->fit->verdict));
  }

  std::string parcels() const {
    std::vector<Row> rows;
    for (const ParcelAudit& parcel : report_.audit.parcels) {
      std::string words = iso(parcel.since);
      if (parcel.state != ParcelState::arrived && report_.today && *report_.today >= parcel.since)
        words += fmt::format(", {} ago", counted(static_cast<std::size_t>(*report_.today - parcel.since), "day"));
      if (parcel.unexamined > 0) words += fmt::format("; {} not examined", counted(parcel.unexamined, "thing"));
      rows.push_back({shelf_[parcel.purchase].id, std::string{name(parcel.state)}, std::move(words), Tone::open});
    }
    if (rows.empty()) return {};
    return "\nparcels\n" + rows_text(rows, report_.every_slot ? rows.size() : most_parcels, "--all shows them", style_);
  }

  std::string advice() const {
    const auto asks_seller = [](const auto& item) {
      return std::ranges::any_of(item.findings, [](const Finding& finding) {
        return finding.trouble == Trouble::undisclosed || finding.trouble == Trouble::unexamined;
      });
    };
    std::string text = "\n";
    if (std::ranges::any_of(report_.audit.pieces, asks_seller) || std::ranges::any_of(report_.audit.loose, asks_seller))
      text += wrap("examine what arrives at once, tell the seller promptly of what differs, and keep the packing and "
                   "photographs; what you are entitled to differs by place",
                   0, style_) +
              "\n";
    return text +
           wrap("this is what the entered evidence supports, and no appraisal or certificate; `coeval belongs RUN "
                "ISSUE` proves a verdict",
                0, style_) +
           "\n";
  }

  const ReportInput& input_;
  const AuditReport& report_;
  const LinkedShelf& shelf_;
  TextStyle style_;
};

} // namespace

std::string audit_text(const ReportInput& input, const AuditReport& report, TextStyle style) {
  return AuditTelling{input, report, style}.tell();
}

} // namespace coeval

// SPDX-License-Identifier: MIT
#include "screen/closeup/closeup.h"

#include "screen/board/ends.h"
#include "screen/closeup/scene.h"
#include "screen/kit/keep_clear.h"
#include "screen/kit/part_words.h"
#include "screen/kit/tones.h"
#include "screen/sentences.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace loom::screen {
namespace {

constexpr float kGreatestWidth = 724.0f, kGreatestHeight = 452.0f;
constexpr float kLeastWidth = 560.0f, kLeastHeight = 392.0f;
constexpr float kPadding = 14.0f, kTileHeight = 62.0f, kGapBetween = 6.0f;
constexpr double kHoldTurns_s = 3.2; // from open to beyond breaking, while the tile is held

struct Panel {
    const View& view;
    Items& items;
    CloseupUi& ui;
    const BoardUi& board;
    const Pen& pen;
    const EndAtHand& at;
    Asked& out;
};

std::set<std::tuple<std::uint32_t, int, std::uint32_t, int>> joinedEnds(const bench::Bench& bench) {
    std::set<std::tuple<std::uint32_t, int, std::uint32_t, int>> out;
    for (const bench::Cable& cable : bench.cables)
        for (int e = 0; e < 2; ++e)
            if (const auto& at = cable.ends[static_cast<std::size_t>(e)].at)
                out.emplace(cable.id.number, e, at->part.number, at->terminal);
    return out;
}

// An end that is made by hand and was joined since the last look opens the close-up; not at the
// beginning of an attempt, where ends are joined already.
void watchJoins(const View& view, CloseupUi& ui) {
    const attempt::Attempt& attempt = view.session->attempt();
    const std::string exercise = view.session->exercise() ? view.session->exercise()->id : "";
    if (attempt.revision() == ui.revision && exercise == ui.exercise) return;
    const bool anew = exercise != ui.exercise || attempt.revision() < ui.revision;
    auto now = joinedEnds(attempt.bench());
    if (anew) closeCloseup(ui);
    std::optional<CloseupOf> fresh;
    for (const auto& end : now) {
        if (anew || ui.joined.count(end) != 0) continue;
        const bench::Cable* cable = bench::findCable(attempt.bench(), {std::get<0>(end)});
        const int which = std::get<1>(end);
        if (isUnmade(attempt.bench(), *cable, which)) fresh = CloseupOf{cable->id, which, {}};
    }
    if (fresh) openCloseup(ui, *fresh);
    ui.joined = std::move(now);
    ui.revision = attempt.revision();
    ui.exercise = exercise;
}

// What the tug did is known one frame later.
void tellTug(const EndAtHand& at, CloseupUi& ui) {
    if (ui.ifOff.empty()) return;
    const auto& end = at.cable->ends[static_cast<std::size_t>(at.end)];
    if (!at.joined)
        ui.said = ui.ifOff;
    else if (end.tugged)
        ui.said = words("closeup/held");
    else
        return; // not done yet
    ui.ifOff.clear();
}

Rect around(ImVec2 p, float reach) {
    return {{p.x - reach, p.y - reach}, {p.x + reach, p.y + reach}};
}

// Where it may lie: the board and what is below it that is not wanted while an end is made.
Rect roomFor(const View& view, float unit) {
    const Layout& layout = view.layout;
    Rect room = shrunk(layout.board, 8.0f * unit);
    if (layout.form == Form::Wide) {
        room.max.y = layout.tray.max.y;
    } else {
        room.max.y = layout.events.max.y;
        room.min.x = std::max(room.min.x, layout.leafTab.max.x + 6.0f * unit);
    }
    if (room.height() < kLeastHeight * unit)
        room.max.y = std::min(room.min.y + kLeastHeight * unit, layout.tray.max.y);
    return room;
}

// The ways to lie: in each corner at full size, then no larger than needed, then also over the
// paper. Each later way hides more of something else, and weighs that in square pixels.
constexpr int kWaysToLie = 16;

Rect placeOf(const View& view, float unit, int way) {
    Rect room = roomFor(view, unit);
    const bool small = way & 4, overPaper = way & 8;
    if (overPaper && view.layout.form == Form::Wide) room.min.x = 18.0f * unit;
    const float high =
        std::clamp(view.layout.board.height() * 0.78f, kLeastHeight * unit, kGreatestHeight * unit);
    const ImVec2 wish = small ? ImVec2{kLeastWidth * unit, kLeastHeight * unit}
                              : ImVec2{kGreatestWidth * unit, high};
    const ImVec2 size{std::min(room.width(), wish.x), std::min(room.height(), wish.y)};
    const float x = way & 1 ? room.min.x : room.max.x - size.x;
    const float y = way & 2 ? room.min.y : room.max.y - size.y;
    return rectAt(x, y, size.x, size.y);
}

float weightOf(int way, float unit) {
    return ((way & 4 ? 800.0f : 0.0f) + (way & 8 ? 4000.0f : 0.0f)) * unit * unit;
}

// Where it hides least of the terminal and its surroundings.
Rect placePanel(
    const View& view, const EndAtHand& at, CloseupUi& ui, const BoardUi& board, float unit) {
    if (ui.way < 0) {
        const bench::Point place =
            at.terminal ? bench::terminalAt(*at.bench, *at.terminal)
                        : bench::endAt(*at.bench, at.cable->ends[static_cast<std::size_t>(at.end)]);
        const ImVec2 p = board.scene.board.toScreen(
            {static_cast<float>(place.x_m), static_cast<float>(place.y_m)});
        const Rect itself = around(p, 24.0f * unit), near = around(p, 90.0f * unit);
        float least = -1.0f;
        for (int way = 0; way < kWaysToLie; ++way) {
            const Rect there = placeOf(view, unit, way);
            const float hidden =
                20.0f * overlap(there, itself) + overlap(there, near) + weightOf(way, unit);
            if (least >= 0.0f && hidden >= least) continue;
            least = hidden;
            ui.way = way;
        }
    }
    return placeOf(view, unit, ui.way);
}

std::string titleOf(const EndAtHand& at) {
    const std::string where = at.terminal ? terminalWords(*at.bench, *at.terminal) : "";
    if (at.cable == nullptr) return words("closeup/title-terminal", {{"place", where}});
    const bool cut = at.terminalKind == bench::TerminalKind::Clamp;
    if (at.joined)
        return words(cut ? "closeup/title" : "closeup/title-plain",
                     {{"cable", at.cable->label}, {"place", where}});
    return words("closeup/title-loose", {{"cable", at.cable->label}});
}

void applyTile(const Panel& p, const StepTile& tile) {
    CloseupUi& ui = p.ui;
    const bool pending = ui.hand && ui.hand->byKey && ui.hand->step == tile.step;
    const double value = pending ? ui.hand->value : rightValue(p.at, tile.step);
    if (tile.step == MakingStep::Push && !p.at.joined) { // first it has to be there again
        applyStep(ui, p.at, MakingStep::PutOver, 0.0, p.out);
        return;
    }
    applyStep(ui, p.at, tile.step, value, p.out);
}

// The longer it is held, the tighter; let go at the right place.
void holdTighten(const Panel& p, const Touch& touch) {
    CloseupUi& ui = p.ui;
    const StepRange range = rangeOf(p.at, MakingStep::Tighten);
    if (touch.pressed) {
        ui.heldSince_s = p.view.clock_s;
        ui.grabbed = range.now;
        ui.hand = UnderHand{MakingStep::Tighten, range.now, false};
        ui.said.clear();
        return;
    }
    if (ui.heldSince_s < 0.0 || !ui.hand) return;
    const double held_s = std::max(0.0, p.view.clock_s - ui.heldSince_s);
    const double value = std::min(range.most, ui.grabbed + held_s / kHoldTurns_s * range.most);
    ui.hand->value = value;
    if (!touch.down || value >= range.most) applyStep(ui, p.at, MakingStep::Tighten, value, p.out);
}

// Left and right change what a tile is about; Enter asks for it.
void stepByKeys(const Panel& p, const StepTile& tile) {
    const int way = (ImGui::IsKeyPressed(ImGuiKey_RightArrow) ? 1 : 0) -
                    (ImGui::IsKeyPressed(ImGuiKey_LeftArrow) ? 1 : 0);
    p.items.keepSideways();
    if (way == 0) return;
    CloseupUi& ui = p.ui;
    const StepRange range = rangeOf(p.at, tile.step);
    const bool pending = ui.hand && ui.hand->step == tile.step;
    const double from = pending ? ui.hand->value : range.now;
    ui.hand = UnderHand{
        tile.step, std::clamp(from + static_cast<double>(way) * range.step, 0.0, range.most), true};
}

struct TilePaint {
    ImU32 ground, line;
};

TilePaint paintOf(const StepTile& tile, const Touch& touch, bool inHand) {
    const ImU32 ground = touch.down || touch.hot ? tone::kPaperHot
                         : tile.good             ? tone::kDonePale
                                                 : tone::kPaper;
    return {ground,
            inHand       ? tone::kAttention
            : tile.good  ? tone::kDone
            : tile.wrong ? tone::kFault
                         : tone::kMarkLine};
}

void drawTile(const Panel& p, const StepTile& tile, const Rect& at) {
    const Pen& pen = p.pen;
    CloseupUi& ui = p.ui;
    const bool inHand = ui.hand && ui.hand->step == tile.step;
    const std::string state = inHand ? valueWords(tile.step, ui.hand->value) : tile.state;
    std::string said = words("closeup/tile-said", {{"step", tile.title}, {"state", state}});
    if (tile.steps) said += " " + words("closeup/tile-keys");
    const Touch touch = p.items.add(tile.item, said, Zone::Card, at);
    const TilePaint paint = paintOf(tile, touch, inHand);
    pen.list->AddRectFilled(at.min, at.max, paint.ground, pen.px(9.0f));
    pen.list->AddRect(at.min, at.max, paint.line, pen.px(9.0f), 0, pen.px(inHand ? 2.4f : 1.5f));
    if (touch.focused) drawFocusRing(pen.list, at, pen.px(9.0f));
    const float x = at.min.x + pen.px(10.0f), inner = at.width() - pen.px(18.0f);
    const bool marked = tile.good || tile.wrong;
    const ImU32 ink = tile.possible || marked ? tone::kInk : tone::kOffOnPaper;
    pen.left(Face::Bold,
             {x, at.min.y + pen.px(19.0f)},
             ink,
             pen.cut(Face::Bold, tile.title, inner - (marked ? pen.px(20.0f) : 0.0f)));
    pen.left(Face::Body,
             {x, at.max.y - pen.px(18.0f)},
             tile.wrong ? tone::kFault : tone::kInkSoft,
             pen.cut(Face::Body, state, inner));
    if (marked)
        drawMark(pen.list,
                 {at.max.x - pen.px(17.0f), at.min.y + pen.px(19.0f)},
                 pen.px(9.0f),
                 tile.good ? Mark::Done : Mark::Wrong);
    if (touch.focused && tile.steps) stepByKeys(p, tile);
    if (tile.step == MakingStep::Tighten && tile.possible) holdTighten(p, touch);
    const bool byKey = touch.clicked && !ImGui::GetIO().MouseReleased[0];
    if (!touch.clicked || !tile.possible) return;
    if (tile.step != MakingStep::Tighten)
        applyTile(p, tile);
    else if (byKey && ui.hand && ui.hand->byKey)
        applyTile(p, tile);
    else if (byKey)
        ui.said = words("closeup/turn-by-keys");
}

void drawTiles(const Panel& p, const Rect& row) {
    const std::vector<StepTile> tiles = tilesOf(p.at);
    const float gap = p.pen.px(kGapBetween);
    const float count = static_cast<float>(std::max<std::size_t>(tiles.size(), 4));
    const float wide = (row.width() - gap * (count - 1.0f)) / count;
    float x = row.min.x;
    for (const StepTile& tile : tiles) {
        drawTile(p, tile, rectAt(x, row.min.y, wide, row.height()));
        x += wide + gap;
    }
}

// Buttons from the left, as wide as their words.
struct ButtonRow {
    const Panel& panel;
    float x, y;

    bool add(const char* name, const std::string& label) {
        const float wide = buttonWidth(panel.pen, label);
        const Rect rect = rectAt(x, y, wide, panel.pen.px(44.0f));
        x += wide + panel.pen.px(kGapBetween);
        return button(panel.pen, panel.items, name, label, Zone::Card, rect, ButtonLook::Paper);
    }
};

void drawButtons(const Panel& p, const Rect& row) {
    CloseupUi& ui = p.ui;
    const EndAtHand& at = p.at;
    const bool clamp = at.terminalKind == bench::TerminalKind::Clamp;
    ButtonRow buttons{p, row.min.x, row.min.y};
    if (buttons.add("closeup/done", words("closeup/close"))) closeCloseup(ui);
    const bool screw = at.terminal && at.tightens() && (at.joined || at.cable == nullptr);
    if (screw && at.screw.broken) {
        if (buttons.add("closeup/mend", words(clamp ? "closeup/new-screw" : "closeup/new-stud")))
            p.out.push_back(Do{bench::Edit{bench::MendScrew{*at.terminal}}});
    } else if (screw && at.screw.torque_Nm > 0.0) {
        if (buttons.add("closeup/open-screw",
                        words(clamp ? "closeup/open-screw" : "closeup/undo-nut")))
            applyStep(ui, at, MakingStep::Tighten, 0.0, p.out);
    }
    if (at.cable == nullptr) return;
    if (buttons.add("closeup/other", words("closeup/other")))
        openCloseup(ui, {at.cable->id, 1 - at.end, {}});
    const std::string well = words("closeup/well");
    const float wide = buttonWidth(p.pen, well) + p.pen.px(16.0f);
    const Rect main = rectAt(row.max.x - wide, row.min.y, wide, row.height());
    const bool todo = at.cable->ends[static_cast<std::size_t>(at.end)].make.has_value() ||
                      !at.state.faults.empty();
    if (button(p.pen, p.items, "closeup/well", well, Zone::Card, main, ButtonLook::Main, todo)) {
        ui.said.clear();
        ui.hand.reset();
        p.out.push_back(Do{bench::Edit{bench::MakeEndWell{at.cable->id, at.end}}});
    }
}

// One sentence: a refusal, what the last step did, or what comes next.
std::string sentenceOf(const Panel& p) {
    if (!p.board.notice.empty()) return p.board.notice;
    if (!p.ui.said.empty()) return p.ui.said;
    if (p.at.cable == nullptr)
        return words(p.at.screw.torque_Nm > 0.0 ? "closeup/open-first" : "closeup/is-open");
    for (const StepTile& tile : tilesOf(p.at))
        if (!tile.good && tile.possible)
            return words(tile.wrong ? "closeup/not-right" : "closeup/next", {{"step", tile.title}});
    return words(p.at.joined ? "closeup/all-good" : "closeup/join-it");
}

// Up and down walk through tiles and buttons, since left and right change values.
void walkByKeys(Items& items) {
    const int way = (ImGui::IsKeyPressed(ImGuiKey_DownArrow) ? 1 : 0) -
                    (ImGui::IsKeyPressed(ImGuiKey_UpArrow) ? 1 : 0);
    const Item* on = items.focusVisible() ? items.find(items.focused()) : nullptr;
    if (on == nullptr || on->name.rfind("closeup/", 0) != 0) return;
    items.keepUpright();
    if (way == 0) return;
    std::vector<std::string> names;
    for (const Item& item : items.all())
        if (item.name.rfind("closeup/", 0) == 0 && item.name != "closeup/sheet")
            names.push_back(item.name);
    const auto found = std::find(names.begin(), names.end(), on->name);
    if (names.empty()) return;
    const auto count = static_cast<int>(names.size());
    const int index = found == names.end() ? 0 : static_cast<int>(found - names.begin());
    items.setFocus(names[static_cast<std::size_t>((index + way + count) % count)]);
}

void closeByTap(const View& view, CloseupUi& ui, const Items& items, const Rect& panel) {
    const ImGuiIO& io = ImGui::GetIO();
    const bool tap = io.MouseReleased[0] &&
                     std::hypot(io.MousePos.x - io.MouseClickedPos[0].x,
                                io.MousePos.y - io.MouseClickedPos[0].y) < 10.0f * view.layout.unit;
    const bool free = view.layout.board.contains(io.MousePos) && !panel.contains(io.MousePos) &&
                      items.over(io.MousePos) == nullptr;
    if (tap && free && !ui.justOpened && !ui.hand) closeCloseup(ui);
}

std::string wrongTool(const EndAtHand& at, Tool tool) {
    const bool clamp = at.terminalKind == bench::TerminalKind::Clamp;
    if (!at.tightens() || tool != (clamp ? Tool::Spanner : Tool::Driver)) return {};
    return words(clamp ? "closeup/takes-driver" : "closeup/takes-spanner");
}

void drawPanelOf(const Panel& p, const Rect& at) {
    const Pen& pen = p.pen;
    ImDrawList* list = pen.list;
    const std::string title = titleOf(p.at), said = sentenceOf(p);
    const Touch sheet = p.items.add("closeup/sheet", title + ". " + said, Zone::Card, at);
    drawSoftShadow(list, at, pen.px(10.0f), pen.px(14.0f), 0.45f);
    list->AddRectFilled(at.min, at.max, tone::kPaper, pen.px(10.0f));
    list->AddRect(at.min, at.max, tone::kAttention, pen.px(10.0f), 0, 1.6f);
    if (sheet.focused) drawFocusRing(list, at, pen.px(10.0f));
    const float pad = pen.px(kPadding), gap = pen.px(kGapBetween), line = pen.px(26.0f);
    const float left = at.min.x + pad, right = at.max.x - pad;
    pen.left(Face::Title,
             {left, at.min.y + pen.px(24.0f)},
             tone::kInk,
             pen.cut(Face::Title, title, right - left));
    const Rect buttons{{left, at.max.y - pad + pen.px(2.0f) - pen.px(44.0f)},
                       {right, at.max.y - pad + pen.px(2.0f)}};
    const Rect tiles{{left, buttons.min.y - gap - pen.px(kTileHeight)},
                     {right, buttons.min.y - gap}};
    const Rect bed{{at.min.x + pen.px(8.0f), at.min.y + pen.px(44.0f)},
                   {at.max.x - pen.px(8.0f), tiles.min.y - line - gap}};
    list->AddRectFilled(bed.min, bed.max, tone::kBoard, pen.px(8.0f));
    list->AddRect(bed.min, bed.max, tone::kBoardGrain, pen.px(8.0f), 0, 1.0f);
    drawCloseupScene(
        {p.view, p.items, p.ui, p.board.tool, pen, p.at, shrunk(bed, pen.px(6.0f)), p.out});
    pen.left(Face::Body,
             {left, tiles.min.y - gap * 0.5f - line * 0.5f},
             tone::kInk,
             pen.cut(Face::Body, said, right - left));
    drawTiles(p, tiles);
    drawButtons(p, buttons);
}

} // namespace

void openCloseup(CloseupUi& ui, const CloseupOf& of) {
    const bool same = ui.open && ui.of.cable == of.cable && ui.of.end == of.end;
    ui.of = of;
    ui.open = ui.justOpened = true;
    ui.hand.reset();
    ui.heldSince_s = -1.0;
    if (same) return;
    ui.said.clear();
    ui.ifOff.clear();
    ui.way = -1;
}

void openCloseupAt(CloseupUi& ui, const bench::Bench& bench, bench::TerminalRef terminal) {
    const std::vector<bench::EndRef> there = bench::endsAt(bench, terminal);
    if (there.empty()) return openCloseup(ui, {{}, 0, terminal});
    std::size_t next = there.size() - 1;
    for (std::size_t i = 0; i < there.size(); ++i)
        if (ui.open && there[i].cable == ui.of.cable && there[i].end == ui.of.end)
            next = (i + there.size() - 1) % there.size();
    openCloseup(ui, {there[next].cable, there[next].end, terminal});
}

void closeCloseup(CloseupUi& ui) {
    ui.open = false;
    ui.hand.reset();
    ui.heldSince_s = -1.0;
    ui.said.clear();
    ui.ifOff.clear();
}

bool drawCloseup(const View& view,
                 Items& items,
                 CloseupUi& ui,
                 const BoardUi& board,
                 ImDrawList* list,
                 Asked& out) {
    watchJoins(view, ui);
    if (!ui.open || holdsSomething(board)) return false;
    const bool other = !std::holds_alternative<std::monostate>(board.chosen);
    if (other && !ui.justOpened) { // something else was chosen: its card comes instead
        closeCloseup(ui);
        return false;
    }
    if (other) out.push_back(Choose{});
    const auto at = endAtHand(view.session->attempt().bench(), ui.of);
    if (!at) {
        closeCloseup(ui);
        return false;
    }
    if (at->joined) ui.of.terminal = at->terminal; // to be put back there if it comes off
    if (at->cable != nullptr) tellTug(*at, ui);
    if (ui.justOpened && ui.said.empty()) ui.said = wrongTool(*at, board.tool);
    const Pen pen(view, list);
    const Rect place = placePanel(view, *at, ui, board, view.layout.unit);
    drawPanelOf({view, items, ui, board, pen, *at, out}, place);
    walkByKeys(items);
    closeByTap(view, ui, items, place);
    ui.justOpened = false;
    return ui.hand.has_value();
}

} // namespace loom::screen

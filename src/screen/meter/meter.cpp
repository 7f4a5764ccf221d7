// SPDX-License-Identifier: MIT
#include "screen/meter/meter.h"

#include "screen/art/board_art.h"
#include "screen/board/probe.h"
#include "screen/board/scene.h"
#include "screen/kit/tones.h"
#include "screen/kit/widgets.h"
#include "screen/meter/art.h"
#include "screen/meter/face.h"
#include "screen/sentences.h"

#include <algorithm>
#include <cmath>

namespace loom::screen {

namespace {

using bench::MeterRange;

constexpr MeterRange kRanges[] = {
    MeterRange::Off, MeterRange::Volts, MeterRange::Ohms, MeterRange::Tone, MeterRange::Amperes};
constexpr const char* kRangeItems[] = {"meter/range/off",
                                       "meter/range/volts",
                                       "meter/range/ohms",
                                       "meter/range/tone",
                                       "meter/range/amperes"};
constexpr const char* kRangeSaid[] = {"meter/said-range-off",
                                      "meter/said-range-volts",
                                      "meter/said-range-ohms",
                                      "meter/said-range-tone",
                                      "meter/said-range-amperes"};
constexpr const char* kProbeItems[] = {"meter/red", "meter/black"};
constexpr float kBesideBody = 92.0f; // room for the probes that lie beside it
constexpr double kNudge_m = 0.02;
constexpr float kDragFrom_px = 7.0f;

struct Desk {
    const View& view;
    Items& items;
    MeterUi& ui;
    const BoardUi& board;
    const Pen& pen;
    const bench::Bench& bench;
    const bench::Meter& meter;
    Asked& out;
    Measured reading;
    ImVec2 topLeft{0, 0};
    bool probesLeft = false; // they lie at its left side

    ImVec2 at(float x, float y) const { return {topLeft.x + pen.px(x), topLeft.y + pen.px(y)}; }

    Rect around(ImVec2 centre, float side) const {
        return rectAt(centre.x - pen.px(side) * 0.5f,
                      centre.y - pen.px(side) * 0.5f,
                      pen.px(side),
                      pen.px(side));
    }

    void ask(bench::Edit edit) const { out.push_back(Do{std::move(edit)}); }
};

float dragged(const ImGuiIO& io) {
    return std::hypot(io.MousePos.x - io.MouseClickedPos[0].x,
                      io.MousePos.y - io.MouseClickedPos[0].y);
}

// Its middle on the screen: always within the board's window, however near the camera is.
ImVec2
middleOf(const View& view, const MeterUi& m, const BoardUi& board, const bench::Meter& meter) {
    const float u = view.layout.unit;
    const ImVec2 half{art::meter::kWidth * 0.5f * u, art::meter::kHeight * 0.5f * u};
    ImVec2 at = m.moving ? m.at_px
                         : board.scene.board.toScreen({static_cast<float>(meter.at_m.x_m),
                                                       static_cast<float>(meter.at_m.y_m)});
    const Rect inner = shrunk(view.layout.board, 6.0f * u);
    at.x = std::max(inner.min.x + half.x, std::min(at.x, inner.max.x - half.x));
    at.y = std::max(inner.min.y + half.y, std::min(at.y, inner.max.y - half.y));
    return at;
}

void placeDesk(Desk& d) {
    const ImVec2 middle = middleOf(d.view, d.ui, d.board, d.meter);
    d.topLeft = {middle.x - d.pen.px(art::meter::kWidth) * 0.5f,
                 middle.y - d.pen.px(art::meter::kHeight) * 0.5f};
    d.probesLeft =
        d.topLeft.x + d.pen.px(art::meter::kWidth + kBesideBody) > d.view.layout.board.max.x;
}

void endMove(const Desk& d) {
    MeterUi& m = d.ui;
    m.moving = false;
    const ImVec2 to =
        d.board.scene.board.toBoard({d.topLeft.x + d.pen.px(art::meter::kWidth) * 0.5f,
                                     d.topLeft.y + d.pen.px(art::meter::kHeight) * 0.5f});
    if (d.view.layout.rail.contains(ImGui::GetIO().MousePos))
        d.ask(bench::HangMeter{});
    else
        d.ask(bench::PlaceMeter{{to.x, to.y}});
}

void moveByPointer(Desk& d, const Touch& body) {
    MeterUi& m = d.ui;
    const ImGuiIO& io = ImGui::GetIO();
    if (body.pressed) {
        const ImVec2 middle = middleOf(d.view, d.ui, d.board, d.meter);
        m.grabbed = {io.MousePos.x - middle.x, io.MousePos.y - middle.y};
    }
    if (body.down && (m.moving || dragged(io) > kDragFrom_px)) m.moving = true;
    if (!m.moving) return;
    m.at_px = {io.MousePos.x - m.grabbed.x, io.MousePos.y - m.grabbed.y};
    placeDesk(d);
    if (!body.down) endMove(d);
}

void moveByKeys(const Desk& d) {
    bench::Point to = d.meter.at_m;
    const auto pressed = [](ImGuiKey key) { return ImGui::IsKeyPressed(key); };
    if (ImGui::GetIO().KeyShift) {
        to.x_m += kNudge_m * (pressed(ImGuiKey_RightArrow) - pressed(ImGuiKey_LeftArrow));
        to.y_m += kNudge_m * (pressed(ImGuiKey_DownArrow) - pressed(ImGuiKey_UpArrow));
    }
    to.x_m = std::clamp(to.x_m, 0.0, d.bench.board_m.x_m);
    to.y_m = std::clamp(to.y_m, 0.0, d.bench.board_m.y_m);
    if (to.x_m != d.meter.at_m.x_m || to.y_m != d.meter.at_m.y_m) d.ask(bench::PlaceMeter{to});
    if (pressed(ImGuiKey_Delete) || pressed(ImGuiKey_Backspace)) d.ask(bench::HangMeter{});
}

std::string countWords(std::size_t count) {
    return words("meter/count", {{"count", std::to_string(count)}});
}

// Lets the display come to rest on the value. Returns whether it is still on its way.
bool settle(Desk& d) {
    MeterUi& m = d.ui;
    const double now_s = d.view.clock_s;
    const bool counts = d.reading.kind == Measured::Kind::Value;
    if (!counts || d.view.reducedMotion) {
        m.shown = counts ? std::optional<double>(d.reading.value) : std::nullopt;
    } else {
        const bool fresh = !m.shown || m.shownRange != d.reading.range;
        const double from = fresh ? 0.0 : *m.shown;
        m.shown = settled(from, d.reading.value, fresh ? 0.0 : now_s - m.shown_s, d.reading.digit);
    }
    m.shown_s = now_s;
    m.shownRange = d.reading.range;
    return counts && std::fabs(*m.shown - d.reading.value) > 0.25 * d.reading.digit;
}

bool turnKnob(Desk& d) {
    MeterUi& m = d.ui;
    const float to = art::meter::rangeAngle_rad(d.meter.range);
    if (!m.knob_rad || d.view.reducedMotion) m.knob_rad = to;
    const float left = to - *m.knob_rad;
    const float step = std::min(1.0f, ImGui::GetIO().DeltaTime / 0.06f);
    m.knob_rad = std::fabs(left) < 0.01f ? to : *m.knob_rad + left * step;
    return *m.knob_rad != to;
}

void writeDisplay(const Desk& d, const MeterFace& face) {
    namespace m = art::meter;
    const Pen& pen = d.pen;
    const ImVec2 left = d.at(m::kDisplayLeft + 10.0f, m::kDisplayTop + 17.0f);
    if (!face.unit.empty()) pen.left(Face::Title, left, tone::kInk, face.unit);
    const bool button = d.reading.kind == Measured::Kind::FuseOpen; // takes the lower half
    if (!face.word.empty())
        pen.right(button ? Face::Title : Face::Large,
                  d.at(m::kDisplayRight - 12.0f, m::kDisplayTop + (button ? 16.0f : 30.0f)),
                  tone::kInk,
                  face.word);
    const float room = pen.px(m::kDisplayRight - m::kDisplayLeft - 16.0f);
    if (!face.line.empty() && pen.width(Face::Body, face.line) <= room)
        pen.right(Face::Body,
                  d.at(m::kDisplayRight - 10.0f, m::kDisplayBottom - 12.0f),
                  tone::kInk,
                  face.line);
    else if (!face.line.empty())
        pen.centredIn(Face::Body,
                      {d.at(m::kDisplayLeft + 8.0f, m::kDisplayBottom - 43.0f),
                       d.at(m::kDisplayRight - 8.0f, m::kDisplayBottom - 2.0f)},
                      tone::kInk,
                      face.line);
}

void drawFuseButton(const Desk& d) {
    namespace m = art::meter;
    const Rect at{d.at(m::kDisplayLeft + 6.0f, m::kDisplayBottom - 48.0f),
                  d.at(m::kDisplayRight - 6.0f, m::kDisplayBottom - 4.0f)};
    if (button(d.pen,
               d.items,
               "meter/fuse",
               words("meter/fit-fuse"),
               Zone::Board,
               at,
               ButtonLook::Paper))
        d.ask(bench::FitMeterFuse{});
}

void drawRanges(const Desk& d) {
    namespace m = art::meter;
    const ImVec2 knob = d.at(m::kKnobX, m::kKnobY);
    for (std::size_t i = 0; i < std::size(kRanges); ++i) {
        const float angle = m::rangeAngle_rad(kRanges[i]);
        const ImVec2 centre{knob.x + d.pen.px(m::kRing) * std::sin(angle),
                            knob.y - d.pen.px(m::kRing) * std::cos(angle)};
        const Rect rect = d.around(centre, 44.0f);
        const bool chosen = kRanges[i] == d.meter.range;
        std::string said = words(kRangeSaid[i]);
        if (chosen) said = words("spoken/chosen", {{"what", said}});
        const Touch touch = d.items.add(kRangeItems[i], said, Zone::Board, rect);
        const std::string symbol = rangeSymbol(kRanges[i]);
        const float half = std::clamp(0.5f * d.pen.width(Face::Bold, symbol) + d.pen.px(7.0f),
                                      d.pen.px(18.0f),
                                      d.pen.px(28.0f));
        const Rect mark{{centre.x - half, centre.y - d.pen.px(18.0f)},
                        {centre.x + half, centre.y + d.pen.px(18.0f)}};
        if (chosen)
            d.pen.list->AddRectFilled(mark.min, mark.max, tone::kInk, d.pen.px(8.0f));
        else if (touch.hot || touch.down)
            d.pen.list->AddRectFilled(
                mark.min, mark.max, art::rgb(0xffffff, touch.down ? 110u : 70u), d.pen.px(8.0f));
        d.pen.centredIn(
            Face::Bold, shrunk(mark, d.pen.px(1.0f)), chosen ? tone::kPaper : tone::kInk, symbol);
        if (touch.focused) drawFocusRing(d.pen.list, mark, d.pen.px(8.0f));
        if (touch.clicked && !chosen) d.ask(bench::SetMeter{kRanges[i]});
    }
}

void drawHang(const Desk& d) {
    const Rect rect = d.around(d.at(art::meter::kWidth - 30.0f, 118.0f), 44.0f);
    const Touch touch = d.items.add("meter/hang", words("meter/said-hang"), Zone::Board, rect);
    const Rect face = shrunk(rect, d.pen.px(5.0f));
    if (touch.hot || touch.down)
        d.pen.list->AddRectFilled(face.min, face.max, art::rgb(0xffffff, 80u), d.pen.px(8.0f));
    // A hook in the wall.
    const ImVec2 c = rect.centre();
    const float r = d.pen.px(7.0f), thick = d.pen.px(3.4f);
    d.pen.list->AddLine(
        {c.x + r, c.y - d.pen.px(12.0f)}, {c.x + r, c.y + d.pen.px(3.0f)}, tone::kInk, thick);
    d.pen.list->PathArcTo({c.x, c.y + d.pen.px(3.0f)}, r, 0.0f, 3.14159265f, 14);
    d.pen.list->PathStroke(tone::kInk, 0, thick);
    if (touch.focused) drawFocusRing(d.pen.list, face, d.pen.px(8.0f));
    if (touch.clicked) d.ask(bench::HangMeter{});
}

// The knob itself turns to the next range.
void useKnob(const Desk& d) {
    namespace m = art::meter;
    const Touch touch =
        d.items.add("meter/knob",
                    words("meter/said-knob", {{"range", rangeSymbol(d.meter.range)}}),
                    Zone::Board,
                    d.around(d.at(m::kKnobX, m::kKnobY), 2.0f * m::kKnobRadius));
    if (touch.focused)
        drawFocusRing(d.pen.list,
                      d.around(d.at(m::kKnobX, m::kKnobY), 2.0f * m::kKnobRadius),
                      d.pen.px(m::kKnobRadius));
    if (!touch.clicked) return;
    const auto here = std::find(std::begin(kRanges), std::end(kRanges), d.meter.range);
    const std::size_t next = static_cast<std::size_t>(here - std::begin(kRanges) + 1);
    d.ask(bench::SetMeter{kRanges[next % std::size(kRanges)]});
}

// --- the probes

int heldProbe(const BoardUi& board) {
    const auto* held = std::get_if<ProbeInHand>(&board.hand);
    return held ? held->which : -1;
}

std::optional<ProbeTarget> targetOf(const Desk& d, const bench::ProbeTip& tip) {
    for (const ProbeTarget& target : probeTargets(d.bench, d.board.scene)) {
        const bool same = tip.terminal
                              ? target.tip.terminal == tip.terminal
                              : tip.cable && !target.tip.terminal &&
                                    target.tip.cable == tip.cable && target.tip.end == tip.end;
        if (same) return target;
    }
    return std::nullopt;
}

// Where its point is, and whether it is lying beside the meter.
struct Placed {
    ImVec2 tip{0, 0};
    bool lies = false;
};

Placed placeProbe(const Desk& d, int which) {
    if (heldProbe(d.board) == which) {
        const auto near = probeTargetNear(d.view, d.bench, d.board.scene, d.board.hand_px);
        return {near ? near->at_px : d.board.hand_px, false};
    }
    if (const auto target = targetOf(d, d.meter.probes[static_cast<std::size_t>(which)]))
        return {target->at_px, false};
    const float beside = which == 0 ? 66.0f : 24.0f;
    return {d.at(d.probesLeft ? -beside : art::meter::kWidth + beside, 110.0f), true};
}

// The handle leans away from the other probe, and up where the board ends below it.
ImVec2 leaning(const Desk& d, const Placed& own, const Placed& other, int which) {
    if (own.lies) return {0.0f, 1.0f};
    const bool right = own.tip.x == other.tip.x ? which == 0 : own.tip.x > other.tip.x;
    const float reach = d.pen.px(art::kProbeTip + art::kProbeHandle);
    const bool up = own.tip.y + reach > d.view.layout.board.max.y;
    constexpr float kLean = 0.42f, kAlong = 0.9075f; // a unit vector
    return {right ? kLean : -kLean, up ? -kAlong : kAlong};
}

void useProbe(const Desk& d, const art::ProbeLook& look) {
    const char* name = kProbeItems[look.which];
    const ImVec2 grip{
        look.tip.x + look.away.x * d.pen.px(art::kProbeTip + art::kProbeHandle * 0.5f),
        look.tip.y + look.away.y * d.pen.px(art::kProbeTip + art::kProbeHandle * 0.5f)};
    const std::string place =
        probePlace(d.bench, d.meter.probes[static_cast<std::size_t>(look.which)]);
    const Rect rect = rectAt(
        grip.x - d.pen.px(22.0f), grip.y - d.pen.px(30.0f), d.pen.px(44.0f), d.pen.px(60.0f));
    const Touch touch =
        d.items.add(name,
                    words(look.which == 0 ? "meter/red" : "meter/black", {{"place", place}}),
                    Zone::Board,
                    rect);
    if (touch.focused) drawFocusRing(d.pen.list, rect, d.pen.px(8.0f));
    if (touch.down && dragged(ImGui::GetIO()) > kDragFrom_px) {
        d.items.letGo();
        d.out.push_back(PickUp{ProbeInHand{look.which}, true});
    } else if (touch.clicked) {
        d.out.push_back(PickUp{ProbeInHand{look.which}, false, look.tip});
    }
}

void drawProbes(const Desk& d, bool under) {
    const Placed placed[] = {placeProbe(d, 0), placeProbe(d, 1)};
    const int held = heldProbe(d.board);
    for (int i = 0; i < 2; ++i) {
        const int which = held == 1 ? i : 1 - i; // the held one last, over the other
        art::ProbeLook look;
        look.tip = placed[which].tip;
        look.away = leaning(d, placed[which], placed[1 - which], which);
        look.unit = d.pen.unit;
        look.which = which;
        look.held = held == which;
        if (under) {
            const ImVec2 jack = d.at(art::meter::kJackX[which], art::meter::kHeight + 4.0f);
            art::drawLead(d.pen.list, jack, look, d.pen.px(placed[which].lies ? 46.0f : 90.0f));
            continue;
        }
        art::drawProbe(d.pen.list, look);
        if (!look.held) useProbe(d, look);
    }
}

// Joined ends can be touched with a probe in the hand: the keys reach them then.
void noteEnds(const Desk& d) {
    for (const ProbeTarget& target : probeTargets(d.bench, d.board.scene)) {
        if (target.tip.terminal) continue;
        const bench::Cable* cable = bench::findCable(d.bench, target.tip.cable);
        if (!cable->ends[static_cast<std::size_t>(target.tip.end)].at) continue; // noted already
        const std::string name =
            "end/" + std::to_string(cable->id.number) + "/" + std::to_string(target.tip.end);
        const Rect rect = d.around(target.at_px, 24.0f);
        if (d.items.note(name, probePlace(d.bench, target.tip), Zone::Board, rect))
            art::drawRing(d.pen.list, target.at_px, d.pen.px(12.0f), true);
    }
}

void drawTarget(const Desk& d, art::PictureStore& pictures) {
    const int held = heldProbe(d.board);
    if (held < 0) return;
    noteEnds(d);
    const auto near = probeTargetNear(d.view, d.bench, d.board.scene, d.board.hand_px);
    if (!near) return;
    const float turn = d.view.reducedMotion ? 0.0f : static_cast<float>(d.view.clock_s);
    const float radius = std::max(d.pen.px(11.0f), 0.022f * d.board.scene.board.px_per_m);
    art::drawTakesRing(d.pen.list, near->at_px, radius, turn);
    const std::string place = probePlace(d.bench, near->tip);
    const std::string which = words(held == 0 ? "meter/red-here" : "meter/black-here");
    // The tag keeps off the display, which is what one looks at now.
    art::Box room{d.view.layout.board.min, d.view.layout.board.max};
    const float bodyRight = d.topLeft.x + d.pen.px(art::meter::kWidth);
    if (near->at_px.x < d.topLeft.x)
        room.max.x = d.topLeft.x;
    else if (near->at_px.x > bodyRight)
        room.min.x = bodyRight;
    art::drawTag(
        d.pen.list, pictures, fontSet(d.view), room, near->at_px, place.c_str(), which.c_str());
}

bool drawBody(Desk& d) {
    namespace m = art::meter;
    const bool turning = turnKnob(d), settling = settle(d);
    MeterFace face = faceOf(d.reading, d.ui.shown.value_or(0.0));
    const bool restless = !settling && !d.view.reducedMotion && !d.view.session->attempt().quiet();
    if (restless && d.reading.kind == Measured::Kind::Value)
        face = faceOf(d.reading, *d.ui.shown + unrest(d.reading, d.view.clock_s));
    art::MeterLook look;
    look.topLeft = d.topLeft;
    look.unit = d.pen.unit;
    look.knob_rad = d.ui.knob_rad.value_or(0.0f);
    look.lit = d.reading.kind != Measured::Kind::Off;
    look.digits = face.digits;
    look.held = d.ui.moving;
    look.sounding = d.reading.sounds ? 1.0f : 0.0f;
    look.time_s = d.view.reducedMotion ? 0.0f : static_cast<float>(d.view.clock_s);
    art::drawMeterBody(d.pen.list, look);
    writeDisplay(d, face);
    return turning || settling || (d.reading.sounds && !d.view.reducedMotion);
}

} // namespace

bool drawMeter(const View& view,
               Items& items,
               MeterUi& ui,
               const BoardUi& board,
               art::PictureStore& pictures,
               ImDrawList* list,
               Asked& out) {
    const attempt::Attempt& attempt = view.session->attempt();
    const bench::Bench& bench = attempt.bench();
    if (!bench.meter) {
        ui = {};
        if (heldProbe(board) >= 0) out.push_back(LetGo{});
        return false;
    }
    const Pen pen(view, list);
    Desk d{view, items, ui, board, pen, bench, *bench.meter, out, measured(attempt), {}, false};
    ui.sounding = d.reading.sounds;
    placeDesk(d);
    list->PushClipRect(view.layout.board.min, view.layout.board.max, true);
    drawProbes(d, true);
    const std::string count = countWords(measurements(attempt.record()));
    const Rect body =
        rectAt(d.topLeft.x, d.topLeft.y, pen.px(art::meter::kWidth), pen.px(art::meter::kHeight));
    const Touch touch =
        items.add("meter/body", spokenReading(d.reading) + " " + count + ".", Zone::Board, body);
    moveByPointer(d, touch);
    if (touch.focused) moveByKeys(d);
    const bool moves = drawBody(d);
    if (touch.focused) drawFocusRing(list, body, pen.px(18.0f));
    pen.centred(
        Face::Bold, d.at(art::meter::kWidth * 0.5f, art::meter::kCountY), tone::kInk, count);
    useKnob(d);
    drawRanges(d);
    drawHang(d);
    if (d.reading.kind == Measured::Kind::FuseOpen) drawFuseButton(d);
    drawProbes(d, false);
    drawTarget(d, pictures);
    list->PopClipRect();
    return moves || ui.moving;
}

} // namespace loom::screen

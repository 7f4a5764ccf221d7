// SPDX-License-Identifier: MIT
#include "screen/closeup/scene.h"

#include "screen/closeup/art.h"
#include "screen/kit/tones.h"
#include "screen/sentences.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace loom::screen {
namespace {

using bench::EndFault;
using bench::EndKind;
using bench::TerminalKind;

constexpr float kSideWidth = 196.0f; // dial, or choice of an end
constexpr float kWholeWidth_mm = 46.0f, kWholeHeight_mm = 25.0f;
constexpr float kScrewAt_mm = 6.0f; // in a clamp: bench/ends.cpp
constexpr float kPi = 3.14159265f;

float mm(double length_m) {
    return static_cast<float>(length_m * 1e3);
}

bool isRing(EndKind kind) {
    return kind == EndKind::RingM6 || kind == EndKind::RingM8;
}

bool isSpade(EndKind kind) {
    return kind == EndKind::Spade || kind == EndKind::Piggyback;
}

// The value of a step as shown: the one under the hand while there is one.
double shown(const CloseupScene& s, MakingStep step, double now) {
    const auto& hand = s.ui.hand;
    return hand && hand->step == step ? hand->value : now;
}

struct Stage {
    art::CutFrame frame;
    art::LargeEnd end;
    art::CutTerminal terminal;
    bool hasEnd = false, hasTerminal = false;
};

// How far left of the mouth there is room, in mm.
float leftOfMouth_mm(const CloseupScene& s) {
    if (isSpade(s.at.kind)) return 33.0f;
    return isRing(s.at.kind) ? 26.0f : 28.0f;
}

art::LargeEnd largeEnd(const CloseupScene& s, const art::CutFrame& frame, float stud_mm) {
    const EndAtHand& at = s.at;
    art::LargeEnd end;
    end.kind = at.kind;
    end.area_m2 = at.cable->area_m2;
    end.sleeve = art::sleeveTone(at.cable->sleeve).body;
    end.from_mm = (s.area.min.x - frame.mouth_px.x) / frame.px_per_mm - 1.0f;
    end.strip_mm = mm(shown(s, MakingStep::Strip, at.make.strip_m));
    end.barrel_mm = mm(at.target.strip_m);
    end.twisted = at.make.twisted;
    end.pressed = at.make.pressed;
    end.strandOut = !at.make.twisted && end.strip_mm > 0.5f;
    const float pushed_mm = mm(shown(s, MakingStep::Push, at.joined ? at.make.pushed_m : 0.0));
    const bool onItsOwn = isRing(at.kind) || (isSpade(at.kind) && !at.terminal);
    if (!at.joined) // a fitting takes more room than bare copper
        end.front_mm = onItsOwn ? 9.0f : pushed_mm - 2.0f;
    else
        end.front_mm = isRing(at.kind) ? stud_mm + 7.0f : pushed_mm;
    return end;
}

void layTerminal(const CloseupScene& s, Stage& stage) {
    art::CutTerminal& t = stage.terminal;
    t.kind = s.at.terminalKind;
    t.deep_mm = isSpade(s.at.kind) || t.kind == TerminalKind::Tab ? 8.0f : 14.0f;
    t.screw_mm = t.kind == TerminalKind::Clamp ? kScrewAt_mm : 8.0f;
    t.broken = s.at.screw.broken;
    const double torque_Nm = shown(s, MakingStep::Tighten, s.at.screw.torque_Nm);
    t.lifted_mm = torque_Nm > 0.0 ? 0.0f : 3.0f;
    t.half_mm = 0.4f;
    if (!stage.hasEnd || !s.at.joined) return;
    const art::EndPlaces places = art::placesOf(stage.end);
    if (places.sleeve_mm > t.screw_mm)
        t.half_mm = art::sleeveHalf_mm(stage.end.area_m2);
    else if (stage.end.front_mm > t.screw_mm)
        t.half_mm = art::copperHalf_mm(stage.end.area_m2) * (t.lifted_mm > 0.0f ? 1.0f : 0.8f);
}

Stage setStage(const CloseupScene& s) {
    Stage stage;
    stage.hasEnd = s.at.cable != nullptr;
    // A ring that is not on its stud, a spade off its tab: shown by themselves.
    stage.hasTerminal =
        s.at.terminal.has_value() && (s.at.joined || !stage.hasEnd || !isRing(s.at.kind));
    const float width = s.area.width() - s.pen.px(kSideWidth);
    const float k = std::min(width / kWholeWidth_mm, s.area.height() / kWholeHeight_mm);
    const float spare = width - kWholeWidth_mm * k;
    stage.frame.px_per_mm = k;
    stage.frame.mouth_px = {s.area.min.x + leftOfMouth_mm(s) * k + spare * 0.5f,
                            s.area.min.y + 12.0f * k};
    if (stage.hasEnd) stage.end = largeEnd(s, stage.frame, 8.0f);
    if (stage.hasTerminal) layTerminal(s, stage);
    return stage;
}

// A value follows the pointer while its item is down and is asked for when it is let go.
template <class Value>
void dragged(const CloseupScene& s, const Touch& touch, MakingStep step, const Value& value) {
    CloseupUi& ui = s.ui;
    const bool mine = ui.hand && ui.hand->step == step && !ui.hand->byKey;
    if (touch.pressed) {
        ui.grabbed = rangeOf(s.at, step).now;
        ui.turned_rad = 0.0f;
        ui.said.clear();
        ui.hand = UnderHand{step, ui.grabbed, false};
    } else if (touch.down && mine) {
        const StepRange range = rangeOf(s.at, step);
        ui.hand->value = std::clamp(value(), 0.0, range.most);
    } else if (mine && !touch.down && ui.heldSince_s < 0.0) {
        const double last = ui.hand->value;
        ui.hand.reset();
        if (std::fabs(last - ui.grabbed) > 1e-9) applyStep(ui, s.at, step, last, s.out);
    }
}

double wholeMillimetres(float length_mm) {
    return std::round(static_cast<double>(length_mm) * 2.0) * 0.5e-3;
}

// From the tip back along the cable: how much is bare.
void drawScale(const CloseupScene& s, const Stage& stage) {
    const art::CutFrame& f = stage.frame;
    const art::EndPlaces p = art::placesOf(stage.end);
    const float tip = p.copper_mm;
    const float y = std::max(9.3f, art::sleeveHalf_mm(stage.end.area_m2) + 5.4f);
    ImDrawList* list = s.pen.list;
    const float reach = std::min(20.0f, tip - stage.end.from_mm - 1.0f);
    const float thin = s.pen.px(1.3f);
    list->AddLine(f.at(tip - reach, y), f.at(tip, y), tone::kInk, s.pen.px(1.8f));
    for (int i = 0; static_cast<float>(i) <= reach; ++i) {
        const float x = tip - static_cast<float>(i), high = i % 5 == 0 ? 1.0f : 0.55f;
        list->AddLine(f.at(x, y), f.at(x, y + high), tone::kInk, thin);
        if (i % 5 == 0)
            s.pen.centred(Face::Body,
                          {f.at(x, 0).x, f.at(0, y + 1.0f).y + s.pen.px(11.0f)},
                          tone::kInk,
                          std::to_string(i));
    }
    const float edge = p.sleeve_mm;
    const bool held = s.ui.hand && s.ui.hand->step == MakingStep::Strip;
    const ImU32 ink = held ? tone::kAttention : tone::kInk;
    const ImVec2 grip = f.at(edge, y);
    const float arm = s.pen.px(8.0f);
    list->AddLine(f.at(edge, 0.0f), {grip.x, grip.y - arm}, art::fade(ink, 0.75f), thin);
    list->AddTriangleFilled({grip.x - arm, grip.y - s.pen.px(13.0f)},
                            {grip.x + arm, grip.y - s.pen.px(13.0f)},
                            grip,
                            ink);
    const std::string bare = words(
        "closeup/bare", {{"length", valueWords(MakingStep::Strip, stage.end.strip_mm * 1e-3)}});
    const ImVec2 at{f.at(tip, 0).x + s.pen.px(14.0f), grip.y + s.pen.px(2.0f)};
    const float room = s.area.max.x - s.pen.px(kSideWidth) - at.x; // up to the dial
    if (s.pen.width(Face::Bold, bare) <= room + s.pen.px(28.0f))
        s.pen.left(Face::Bold, at, ink, bare);
    else { // over the scale's figures, which it says
        const float wide = s.pen.width(Face::Bold, bare), right = at.x + room;
        const float figures = f.at(0, y + 1.0f).y + s.pen.px(11.0f), half = s.pen.px(11.0f);
        list->AddRectFilled(
            {right - wide, figures - half}, {right, figures + half}, tone::kBoard, s.pen.px(4.0f));
        s.pen.right(Face::Bold, {right, figures}, ink, bare);
    }
    const Rect rect{{f.at(tip - std::max(reach, 8.0f), 0).x, f.at(0, y).y - s.pen.px(22.0f)},
                    {f.at(tip + 2.5f, 0).x, f.at(0, y).y + s.pen.px(22.0f)}};
    const Touch touch = s.items.add(
        "closeup/scale", words("closeup/scale-said", {{"bare", bare}}), Zone::Card, rect);
    if (touch.focused) drawFocusRing(list, rect, s.pen.px(8.0f));
    dragged(s, touch, MakingStep::Strip, [&] {
        return wholeMillimetres((f.at(tip, 0).x - ImGui::GetIO().MousePos.x) / f.px_per_mm);
    });
}

// Held by its screw, its ring or its spade, it is tugged at; otherwise it slides.
bool isHeld(const EndAtHand& at) {
    return isRing(at.kind) || isSpade(at.kind) || at.screw.torque_Nm > 0.0;
}

// A drag away of some length, let go.
bool pulledAway(const CloseupScene& s, const Touch& touch) {
    CloseupUi& ui = s.ui;
    const float moved = ImGui::GetIO().MousePos.x - ImGui::GetIO().MouseClickedPos[0].x;
    if (touch.pressed) ui.pulling = isHeld(s.at);
    if (touch.down || !ui.pulling) return false;
    ui.pulling = false;
    return moved < -s.pen.px(14.0f);
}

// The cable is taken hold of to push it in, or to pull at it.
void holdCable(const CloseupScene& s, const Stage& stage) {
    if (!s.at.joined) return;
    const art::CutFrame& f = stage.frame;
    const float half = std::max(s.pen.px(22.0f), f.px(art::sleeveHalf_mm(stage.end.area_m2)));
    const float right = std::max(art::placesOf(stage.end).sleeve_mm, stage.end.from_mm + 6.0f);
    const Rect rect{{s.area.min.x, f.mouth_px.y - half}, {f.at(right, 0).x, f.mouth_px.y + half}};
    const Touch touch = s.items.add("closeup/cable", words("closeup/cable-said"), Zone::Card, rect);
    if (touch.focused) drawFocusRing(s.pen.list, rect, s.pen.px(8.0f));
    if (pulledAway(s, touch)) return applyStep(s.ui, s.at, MakingStep::Tug, 0.0, s.out);
    if (isRing(s.at.kind)) return;
    dragged(s, touch, MakingStep::Push, [&] {
        const float moved = ImGui::GetIO().MousePos.x - ImGui::GetIO().MouseClickedPos[0].x;
        const double grabbed = s.ui.grabbed;
        const double to = wholeMillimetres(mm(grabbed) + moved / f.px_per_mm);
        return isHeld(s.at) ? std::max(grabbed, to) : to;
    });
}

float turnSince(float from_rad, float to_rad) {
    float d = to_rad - from_rad;
    while (d > kPi)
        d -= 2.0f * kPi;
    while (d < -kPi)
        d += 2.0f * kPi;
    return d;
}

// Half a turn brings an open screw to where it is right.
void turnByHand(const CloseupScene& s, const Touch& touch, ImVec2 hub) {
    CloseupUi& ui = s.ui;
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const float angle = std::atan2(mouse.y - hub.y, mouse.x - hub.x);
    if (touch.pressed) ui.grabAngle_rad = angle;
    dragged(s, touch, MakingStep::Tighten, [&] {
        ui.turned_rad += turnSince(ui.grabAngle_rad, angle);
        ui.grabAngle_rad = angle;
        return ui.grabbed + static_cast<double>(ui.turned_rad / kPi) * s.at.torque.right_Nm;
    });
}

void drawDial(const CloseupScene& s) {
    if (!s.at.tightens()) return;
    const Pen& pen = s.pen;
    const float wide = pen.px(kSideWidth);
    const Rect side{{s.area.max.x - wide, s.area.min.y}, s.area.max};
    const float radius = std::min(pen.px(70.0f), s.area.height() * 0.4f);
    const ImVec2 hub{side.centre().x, s.area.min.y + radius * 1.15f + pen.px(8.0f)};
    const double torque_Nm = shown(s, MakingStep::Tighten, s.at.screw.torque_Nm);
    art::TorqueDial dial;
    dial.least = static_cast<float>(s.at.torque.least_Nm);
    dial.most = static_cast<float>(s.at.torque.most_Nm);
    dial.breaks = static_cast<float>(s.at.torque.breaks_Nm);
    dial.end = dial.breaks * 1.15f;
    dial.now = static_cast<float>(torque_Nm);
    dial.broken = s.at.screw.broken;
    dial.hexagon = s.at.terminalKind != TerminalKind::Clamp;
    dial.turned_rad = static_cast<float>(torque_Nm / s.at.torque.right_Nm) * kPi;
    art::drawTorqueDial(pen.list, hub, radius, dial);
    const float under = hub.y + pen.px(28.0f) + radius * 0.12f;
    pen.centred(Face::Body,
                {hub.x - radius, under - pen.px(10.0f)},
                tone::kInkSoft,
                words("closeup/loose"));
    const float tightX = hub.x + radius - pen.px(6.0f), reach = side.max.x + pen.px(4.0f) - tightX;
    pen.centredIn(
        Face::Body,
        {{tightX - reach, under - pen.px(30.0f)}, {tightX + reach, under + pen.px(10.0f)}},
        tone::kInkSoft,
        words("closeup/too-tight"));
    const std::string tightness = tightnessWords(s.at, torque_Nm, s.at.screw.broken);
    const std::string said = s.at.screw.broken
                                 ? tightness
                                 : words("closeup/torque",
                                         {{"torque", valueWords(MakingStep::Tighten, torque_Nm)},
                                          {"tightness", tightness}});
    pen.centred(Face::Bold, {hub.x, under + pen.px(18.0f)}, tone::kInk, said);
    const Rect rect{{side.min.x, s.area.min.y}, {side.max.x, under + pen.px(4.0f)}};
    const Touch touch = s.items.add(
        "closeup/screw", words("closeup/screw-said", {{"tightness", said}}), Zone::Card, rect);
    if (touch.focused) drawFocusRing(pen.list, rect, pen.px(8.0f));
    if (!s.at.screw.broken) turnByHand(s, touch, hub);
}

struct Choice {
    EndKind kind;
    const char *item, *label;
};

constexpr std::array<Choice, 6> kChoices{{
    {EndKind::Bare, "closeup/kind/bare", "closeup/kind/bare"},
    {EndKind::Ferrule, "closeup/kind/ferrule", "closeup/kind/ferrule"},
    {EndKind::RingM6, "closeup/kind/ring-m6", "closeup/kind/ring-m6"},
    {EndKind::RingM8, "closeup/kind/ring-m8", "closeup/kind/ring-m8"},
    {EndKind::Spade, "closeup/kind/spade", "closeup/kind/spade"},
    {EndKind::Piggyback, "closeup/kind/piggyback", "closeup/kind/piggyback"},
}};

// Which end a loose cable from the reel gets.
void drawChoices(const CloseupScene& s) {
    const Pen& pen = s.pen;
    const float gap = pen.px(6.0f), wide = (pen.px(kSideWidth) - 2.0f * gap) * 0.5f;
    const float left = s.area.max.x - pen.px(kSideWidth);
    const bool bare = s.at.make.strip_m > 0.0;
    float y = s.area.min.y + pen.px(4.0f);
    pen.paragraph(Face::Body,
                  {left + gap, y},
                  pen.px(kSideWidth) - 2.0f * gap,
                  tone::kInkSoft,
                  words(bare ? "closeup/choose" : "closeup/choose-strip"));
    y += pen.px(bare ? 30.0f : 52.0f);
    const float high =
        std::max(pen.px(44.0f), std::min(pen.px(48.0f), (s.area.max.y - y) / 3.0f - gap));
    for (std::size_t i = 0; i < kChoices.size(); ++i) {
        const Choice& choice = kChoices[i];
        const Rect rect = rectAt(left + gap + static_cast<float>(i % 2) * (wide + gap) - gap * 0.5f,
                                 y + static_cast<float>(i / 2) * (high + gap),
                                 wide,
                                 high);
        const bool chosen = s.at.kind == choice.kind;
        const bool pressed = button(pen,
                                    s.items,
                                    choice.item,
                                    words(choice.label),
                                    Zone::Card,
                                    rect,
                                    ButtonLook::Paper,
                                    bare);
        if (chosen)
            pen.list->AddRect(rect.min, rect.max, tone::kAttention, pen.px(9.0f), 0, pen.px(2.4f));
        if (pressed && !chosen)
            s.out.push_back(
                Do{bench::Edit{bench::PressEnd{s.at.cable->id, s.at.end, choice.kind}}});
    }
}

ImVec2 placeOf(const Stage& stage, EndFault fault) {
    const art::EndPlaces p = art::placesOf(stage.end);
    switch (fault) {
    case EndFault::StrandOut:
        return p.strand_mm;
    case EndFault::StripTooLong:
        return {std::min(-0.8f, (p.sleeve_mm + std::min(0.0f, p.copper_mm)) * 0.5f), 0.0f};
    case EndFault::StripTooShort:
        return {p.sleeve_mm, 0.0f};
    case EndFault::NotPushedIn:
        return {stage.end.front_mm, 0.0f};
    case EndFault::OnSleeve:
        return {stage.terminal.screw_mm, -stage.terminal.half_mm};
    default: {
        ImVec2 head = art::screwHead_mm(stage.terminal);
        head.y += 2.0f;
        return head;
    }
    }
}

// One at a time, the first that a learner meets; the rest stand in the tiles.
void drawCallout(const CloseupScene& s, const Stage& stage) {
    if (!stage.hasEnd) return;
    const auto& faults = s.at.state.faults;
    const auto first = std::find_if(
        faults.begin(), faults.end(), [&](EndFault fault) { return !isUndone(s.at, fault); });
    if (first == faults.end() || s.ui.hand) return;
    const Pen& pen = s.pen;
    const FaultWords said = faultWords(s.at, *first);
    const float inner = pen.px(206.0f), pad = pen.px(10.0f);
    const float high = pen.paragraphHeight(Face::Bold, inner, said.heading) +
                       pen.paragraphHeight(Face::Body, inner, said.clause) + pad * 1.2f;
    const float sleeve = stage.frame.px(art::sleeveHalf_mm(stage.end.area_m2));
    const float over = stage.frame.mouth_px.y - sleeve - s.area.min.y;
    const float top = s.area.min.y + std::max(0.0f, (over - high) * 0.4f);
    const Rect box = rectAt(s.area.min.x, top, inner + 2.0f * pad, high);
    const ImVec2 place = placeOf(stage, *first);
    const ImVec2 at = stage.frame.at(place.x, place.y);
    const float ring = pen.px(15.0f);
    const ImVec2 from{std::clamp(at.x - ring, box.min.x + pen.px(20.0f), box.max.x),
                      std::min(box.max.y, std::max(box.min.y + pen.px(12.0f), at.y))};
    const float away = std::max(1.0f, std::hypot(at.x - from.x, at.y - from.y));
    const ImVec2 to{at.x - (at.x - from.x) * ring / away, at.y - (at.y - from.y) * ring / away};
    pen.list->AddLine(from, to, tone::kPaper, pen.px(4.0f));
    pen.list->AddLine(from, to, tone::kFault, pen.px(2.0f));
    for (int i = 0; i < 10; ++i) {
        pen.list->PathArcTo(at,
                            ring,
                            static_cast<float>(i) * kPi / 5.0f,
                            static_cast<float>(i) * kPi / 5.0f + 0.38f,
                            4);
        pen.list->PathStroke(tone::kFault, 0, pen.px(2.6f));
    }
    drawSoftShadow(pen.list, box, pen.px(8.0f), pen.px(6.0f), 0.25f);
    pen.list->AddRectFilled(box.min, box.max, tone::kPaper, pen.px(8.0f));
    pen.list->AddRect(box.min, box.max, tone::kFault, pen.px(8.0f), 0, pen.px(1.6f));
    readable(
        pen, s.items, "closeup/fault", faultSentence(s.at, *first), Zone::Card, box, pen.px(8.0f));
    const float head = pen.paragraph(
        Face::Bold, {box.min.x + pad, box.min.y + pad * 0.5f}, inner, tone::kInk, said.heading);
    pen.paragraph(Face::Body,
                  {box.min.x + pad, box.min.y + pad * 0.5f + head},
                  inner,
                  tone::kInkSoft,
                  said.clause);
}

// The driver or the spanner is on while it is in use or something is being turned.
bool toolIsOn(const CloseupScene& s) {
    if (!s.at.tightens() || s.at.screw.broken) return false;
    const auto& hand = s.ui.hand;
    const bool clamp = s.at.terminalKind == TerminalKind::Clamp;
    return s.tool == (clamp ? Tool::Driver : Tool::Spanner) ||
           (hand && hand->step == MakingStep::Tighten);
}

std::string comesOff(const EndAtHand& at) {
    if (at.state.faults.empty()) return words("closeup/came-off");
    return words("closeup/came-off-because",
                 {{"fault", faultSentence(at, at.state.faults.front())}});
}

} // namespace

void applyStep(CloseupUi& ui, const EndAtHand& at, MakingStep step, double value, Asked& out) {
    ui.hand.reset();
    ui.heldSince_s = -1.0;
    ui.said.clear();
    const auto edit = editOf(at, step, value);
    if (!edit) return;
    if (step == MakingStep::Tug) ui.ifOff = comesOff(at);
    out.push_back(Do{*edit});
}

void drawCloseupScene(const CloseupScene& scene) {
    const Stage stage = setStage(scene);
    ImDrawList* list = scene.pen.list;
    const Rect& area = scene.area;
    list->PushClipRect(area.min, area.max, true);
    if (stage.hasTerminal) art::drawTerminalBack(list, stage.frame, stage.terminal);
    if (stage.hasEnd) art::drawLargeEnd(list, stage.frame, stage.end);
    if (stage.hasTerminal) art::drawTerminalFront(list, stage.frame, stage.terminal);
    list->PopClipRect();
    if (stage.hasTerminal && toolIsOn(scene)) {
        const float turned = static_cast<float>(
            shown(scene, MakingStep::Tighten, scene.at.screw.torque_Nm) / scene.at.torque.right_Nm);
        art::drawToolOn(
            list, stage.frame, stage.terminal, area.min.y - scene.pen.px(40.0f), turned);
    }
    if (stage.hasEnd) {
        holdCable(scene, stage);
        drawScale(scene, stage);
    }
    const bool loose = stage.hasEnd && !scene.at.joined;
    if (loose && !scene.at.fitted) drawChoices(scene);
    if (!loose) drawDial(scene);
    drawCallout(scene, stage);
}

} // namespace loom::screen

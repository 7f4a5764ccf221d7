// SPDX-License-Identifier: MIT
#include "screen/gallery.h"

#include "bench/catalogue.h"
#include "screen/art/board_art.h"
#include "screen/art/cable_art.h"
#include "screen/art/fitting_art.h"
#include "screen/art/palette.h"
#include "screen/art/part_art.h"
#include "screen/board/label_art.h"

#include <algorithm>

namespace loom::art {

namespace {

constexpr float kPxPerM = 800.0f;
constexpr float kCaption_px = 18.0f;
constexpr float kGap_px = 34.0f;

// Cells flow left to right, then down.
struct Flow {
    ImDrawList* list;
    PictureStore& pictures;
    const FontSet& fonts;
    Box area;
    float time_s;
    float x = 0.0f, y = 0.0f, row = 0.0f;

    ImVec2 cell(float width, float height, const char* caption) {
        const ImVec2 words = textSize(fonts, style(), caption);
        const float wide = std::max(width, words.x) + kGap_px,
                    tall = height + kCaption_px + kGap_px;
        if (x > 0.0f && x + wide > area.width()) newRow();
        const ImVec2 centre(area.min.x + x + wide * 0.5f,
                            area.min.y + y + kGap_px * 0.6f + height * 0.5f);
        drawText(list,
                 fonts,
                 style(),
                 ImVec2(centre.x, centre.y + height * 0.5f + kCaption_px),
                 caption);
        x += wide;
        row = std::max(row, tall);
        return centre;
    }

    void newRow() {
        x = 0.0f;
        y += row;
        row = 0.0f;
    }

    void title(const char* text) {
        newRow();
        const Lettering bold{19.0f, true, tone::kInk};
        const ImVec2 size = textSize(fonts, bold, text);
        drawText(
            list, fonts, bold, ImVec2(area.min.x + size.x * 0.5f, area.min.y + y + 16.0f), text);
        y += 34.0f;
    }

    static Lettering style() { return {12.5f, false, tone::kInkSoft}; }
};

void showPart(Flow& flow, PartLook look, const char* caption) {
    const bench::PartSpec& spec = bench::spec(look.kind);
    float w = static_cast<float>(spec.width_m) * kPxPerM,
          h = static_cast<float>(spec.height_m) * kPxPerM;
    if (look.quarterTurns & 1) std::swap(w, h);
    look.centre = flow.cell(w, h + 24.0f, caption);
    look.centre.y += 4.0f;
    look.px_per_m = kPxPerM;
    look.time_s = flow.time_s;
    drawPart(flow.list, flow.pictures, flow.fonts, look);
}

PartLook plain(bench::PartKind kind, const char* ref, float position = 0.0f, double rating = 0.0) {
    PartLook look;
    look.kind = kind;
    look.ref = ref;
    look.position = position;
    look.rating = rating;
    return look;
}

void showSupply(Flow& flow) {
    using bench::PartKind;
    flow.title("Supply");
    showPart(flow, plain(PartKind::Battery, "B1"), "battery");
    showPart(flow, plain(PartKind::Isolator, "Q1", 0.0f), "key out");
    showPart(flow, plain(PartKind::Isolator, "Q1", 1.0f), "off");
    showPart(flow, plain(PartKind::Isolator, "Q1", 2.0f), "on");
    PartLook fuse = plain(PartKind::StripFuse, "F1", 0.0f, 50.0);
    showPart(flow, fuse, "strip fuse");
    fuse.melting = 0.9f;
    showPart(flow, fuse, "about to open");
    fuse.condition = bench::Condition::Open;
    showPart(flow, fuse, "opened");
    showPart(flow, plain(PartKind::Block, "X1"), "connector block");
    PartLook holder = plain(PartKind::BladeHolder, "F2");
    showPart(flow, holder, "no blade");
    holder.rating = 7.5;
    showPart(flow, holder, "7.5 A");
    holder.melting = 0.9f;
    showPart(flow, holder, "about to open");
    holder.condition = bench::Condition::Open;
    showPart(flow, holder, "opened");
    for (const double rating : {3.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0})
        drawBlade(flow.list,
                  flow.fonts,
                  flow.cell(40.0f, 40.0f, numberText(rating).text),
                  kPxPerM,
                  rating,
                  0.0f,
                  false);
}

void showControls(Flow& flow) {
    using bench::PartKind;
    flow.title("Controls");
    showPart(flow, plain(PartKind::Rocker, "S1", 0.0f), "off");
    PartLook rocker = plain(PartKind::Rocker, "S1", 1.0f);
    showPart(flow, rocker, "on, dark");
    rocker.light = 1.0f;
    showPart(flow, rocker, "on, live");
    showPart(flow, plain(PartKind::PushButton, "S3", 0.0f), "released");
    showPart(flow, plain(PartKind::PushButton, "S3", 1.0f), "held");
    showPart(flow, plain(PartKind::Selector, "S2", 0.0f), "reverse");
    showPart(flow, plain(PartKind::Selector, "S2", 1.0f), "off");
    showPart(flow, plain(PartKind::Selector, "S2", 2.0f), "forward");
    showPart(flow, plain(PartKind::Toggle, "S4", 0.0f), "off");
    showPart(flow, plain(PartKind::Toggle, "S4", 1.0f), "on");
    PartLook relay = plain(PartKind::Relay, "K1");
    showPart(flow, relay, "at rest");
    relay.armature = 1.0f;
    showPart(flow, relay, "pulled in");
    relay.armature = 0.0f;
    relay.condition = bench::Condition::Welded;
    showPart(flow, relay, "welded");
}

void showLoads(Flow& flow) {
    using bench::PartKind;
    flow.title("Loads");
    PartLook lamp = plain(PartKind::Headlamp, "E1");
    showPart(flow, lamp, "dark");
    lamp.light = 0.3f;
    showPart(flow, lamp, "dim");
    lamp.light = 1.0f;
    showPart(flow, lamp, "bright");
    lamp.light = 0.0f;
    lamp.condition = bench::Condition::Open;
    showPart(flow, lamp, "filament gone");
    PartLook horn = plain(PartKind::Horn, "P1");
    showPart(flow, horn, "silent");
    horn.sounding = 1.0f;
    showPart(flow, horn, "sounding");
    showPart(flow, plain(PartKind::Resistor, "R1", 0.0f, 10.0), "resistor");
    PartLook hot = plain(PartKind::Resistor, "R1", 0.0f, 10.0);
    hot.temp_K = 820.0f;
    showPart(flow, hot, "overheated");
    showPart(flow, plain(PartKind::Diode, "D1"), "diode");
    PartLook burnt = plain(PartKind::Diode, "D1");
    burnt.condition = bench::Condition::Open;
    showPart(flow, burnt, "burnt");
    PartLook motor = plain(PartKind::Motor, "M1");
    showPart(flow, motor, "at rest");
    motor.speed_rad_s = 5.0f;
    motor.angle_rad = 0.5f;
    showPart(flow, motor, "forward, slow");
    motor.speed_rad_s = -365.0f;
    showPart(flow, motor, "reverse, fast");
    motor.speed_rad_s = 0.0f;
    motor.condition = bench::Condition::Open;
    motor.temp_K = 480.0f;
    showPart(flow, motor, "winding burnt");
}

void showHandling(Flow& flow) {
    using bench::PartKind;
    flow.title("Handling");
    PartLook relay = plain(PartKind::Relay, "K1");
    relay.held = true;
    showPart(flow, relay, "held");
    relay = plain(PartKind::Relay, "K1");
    relay.selected = true;
    showPart(flow, relay, "selected");
    relay.selected = false;
    relay.focused = true;
    showPart(flow, relay, "focused");
    relay.focused = false;
    relay.alpha = 0.45f;
    showPart(flow, relay, "where it would lie");
    for (int turns = 1; turns < 4; ++turns) {
        PartLook turned = plain(PartKind::Relay, "K1");
        turned.quarterTurns = turns;
        showPart(flow, turned, "turned");
        turned = plain(PartKind::Rocker, "S1", 1.0f);
        turned.light = 1.0f;
        turned.quarterTurns = turns;
        showPart(flow, turned, "turned");
    }
    PartLook out = plain(PartKind::Relay, "");
    out.centre = flow.cell(112.0f, 96.0f, "taken from the tray");
    drawCutOut(flow.list, out);
    drawTakesRing(flow.list, flow.cell(60.0f, 60.0f, "takes it"), 20.0f, flow.time_s);
    drawRefusesRing(flow.list, flow.cell(60.0f, 60.0f, "does not"), 20.0f);
    drawRing(flow.list, flow.cell(60.0f, 60.0f, "selected"), 20.0f, false);
    drawRing(flow.list, flow.cell(60.0f, 60.0f, "focused"), 20.0f, true);
    const ImVec2 at = flow.cell(420.0f, 90.0f, "tag");
    const Box bounds{ImVec2(at.x - 210.0f, at.y - 50.0f), ImVec2(at.x + 210.0f, at.y + 50.0f)};
    drawTag(flow.list,
            flow.pictures,
            flow.fonts,
            bounds,
            ImVec2(at.x - 230.0f, at.y + 20.0f),
            "Ring fits this stud",
            "1 of 3 ends on it");
    drawTag(flow.list,
            flow.pictures,
            flow.fonts,
            bounds,
            ImVec2(at.x - 20.0f, at.y + 20.0f),
            "A spade needs a tab",
            "this is a stud",
            TagMark::Fault);
}

struct CableShow {
    CableLook look;
    bench::EndKind ends[2] = {bench::EndKind::Bare, bench::EndKind::Bare};
    const char* label = "";
    bool joined = false;
};

void showCable(Flow& flow, const CableShow& show, float span_px, const char* caption) {
    const ImVec2 at = flow.cell(span_px, 62.0f, caption);
    const BoardView view{at, kPxPerM};
    CableSpan span;
    for (int i = 0; i < 2; ++i) {
        EndSeat& seat = span.ends[i];
        seat.kind = show.ends[i];
        seat.joined = show.joined;
        seat.terminal_m = ImVec2((i == 0 ? -0.46f : 0.46f) * span_px / kPxPerM, -0.012f);
        seat.leaves = ImVec2(i == 0 ? 0.8f : -0.8f, 0.6f);
        seat.stiffness = 0.8f;
    }
    span.width_m = sleeveWidth_m(show.look.area_m2);
    span.length_m = 0.97f * span_px / kPxPerM;
    Route route;
    layRoute(span, route);
    drawCableShadow(flow.list, view, route, show.look);
    drawCable(flow.list, flow.pictures, view, route, show.look);
    drawCableSmoke(flow.list, flow.pictures, view, route, show.look);
    if (!show.label[0]) return;
    std::vector<LabelSpot> spots;
    placeLabels(view, flow.fonts, {{&route, show.label}}, {}, spots);
    drawLabel(flow.list,
              flow.fonts,
              spots[0],
              show.label,
              show.look.selected ? LabelMark::Attention : LabelMark::None);
}

void showCables(Flow& flow) {
    using bench::EndKind;
    flow.title("Cables");
    CableShow show;
    show.look.area_m2 = 6e-6;
    for (int s = 0; s <= static_cast<int>(bench::Sleeve::Brown); ++s) {
        show.look.sleeve = static_cast<bench::Sleeve>(s);
        show.look.current_A = 3.0f;
        show.look.phase_m = 0.03f;
        showCable(flow, show, 150.0f, bench::word(show.look.sleeve));
    }
    show = CableShow{};
    for (const double area_mm2 : {0.75, 1.0, 2.5, 6.0, 10.0, 16.0}) {
        show.look.area_m2 = area_mm2 * 1e-6;
        showCable(flow, show, 150.0f, numberText(area_mm2).text);
    }
    flow.title("Current");
    show = CableShow{};
    show.look.area_m2 = 10e-6;
    show.label = "P-03";

    const struct {
        float current_A;
        const char* caption;
    } currents[] = {{0.02f, "20 mA"},
                    {0.5f, "0.5 A"},
                    {8.0f, "8 A"},
                    {60.0f, "60 A"},
                    {900.0f, "900 A"},
                    {-60.0f, "60 A the other way"}};

    for (const auto& c : currents) {
        show.look.current_A = c.current_A;
        show.look.phase_m = flow.time_s * kShimmerSpeed_m_s;
        showCable(flow, show, 260.0f, c.caption);
    }
    flow.title("Heat");
    show = CableShow{};
    show.look.area_m2 = 10e-6;
    show.look.time_s = flow.time_s;

    const struct {
        float temp_K;
        bench::CableCondition condition;
        const char* caption;
    } heats[] = {{293, bench::CableCondition::Sound, "20 degrees"},
                 {348, bench::CableCondition::Sound, "75"},
                 {390, bench::CableCondition::Softened, "117"},
                 {450, bench::CableCondition::Softened, "177"},
                 {520, bench::CableCondition::Charred, "247"},
                 {620, bench::CableCondition::Charred, "347"},
                 {780, bench::CableCondition::Charred, "507"},
                 {293, bench::CableCondition::Softened, "once softened"},
                 {293, bench::CableCondition::Charred, "charred, cold"},
                 {293, bench::CableCondition::Parted, "parted, cold"}};

    for (const auto& h : heats) {
        show.look.temp_K = h.temp_K;
        show.look.condition = h.condition;
        showCable(flow, show, 220.0f, h.caption);
    }
    flow.title("Ends");
    show = CableShow{};
    const EndKind kinds[] = {EndKind::Bare,
                             EndKind::Ferrule,
                             EndKind::RingM6,
                             EndKind::RingM8,
                             EndKind::Spade,
                             EndKind::Piggyback};
    for (const EndKind kind : kinds) {
        show.look.area_m2 =
            kind == EndKind::RingM6 || kind == EndKind::RingM8 || kind == EndKind::Ferrule ? 10e-6
                                                                                           : 1e-6;
        show.ends[0] = show.ends[1] = kind;
        showCable(flow, show, 170.0f, bench::word(kind));
        drawFitting(flow.list, flow.cell(30.0f, 46.0f, ""), 46.0f, kind, show.look.area_m2);
    }
    show.look.selected = true;
    show.label = "P-10";
    showCable(flow, show, 170.0f, "selected");
    for (const bench::Sleeve sleeve :
         {bench::Sleeve::Red, bench::Sleeve::Black, bench::Sleeve::Blue}) {
        drawReel(flow.list, flow.cell(44.0f, 44.0f, "reel"), 20.0f, sleeve);
        CableLook hung;
        hung.sleeve = sleeve;
        hung.area_m2 = 6e-6;
        drawHungCable(flow.list, flow.pictures, flow.cell(30.0f, 44.0f, "hung"), kPxPerM, hung);
    }
}

void showTools(Flow& flow) {
    flow.title("Tools");
    for (const char* name : {"tools/hand",
                             "tools/strip",
                             "tools/driver",
                             "tools/spanner",
                             "tools/meter",
                             "tools/marker",
                             "tools/trace",
                             "tools/key",
                             "fittings/clip"}) {
        const ImVec2 at = flow.cell(60.0f, 60.0f, name);
        flow.list->AddRectFilled(ImVec2(at.x - 32.0f, at.y - 32.0f),
                                 ImVec2(at.x + 32.0f, at.y + 32.0f),
                                 tone::kRoomDeep,
                                 9.0f);
        flow.pictures.drawFitted(flow.list, name, at, 48.0f);
    }
    drawKey(flow.list, flow.cell(40.0f, 70.0f, "key"), kPxPerM, 0.2f);
}

} // namespace

float drawGallery(
    ImDrawList* list, PictureStore& pictures, const FontSet& fonts, Box area, float time_s) {
    Flow flow{list, pictures, fonts, area, time_s};
    showSupply(flow);
    showControls(flow);
    showLoads(flow);
    showHandling(flow);
    showCables(flow);
    showTools(flow);
    flow.newRow();
    return flow.y;
}

} // namespace loom::art

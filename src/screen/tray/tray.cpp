// SPDX-License-Identifier: MIT
// The tray: a shadow board at the foot of the bench, one row of slots (two on a tablet). A slot is
// dragged out of or tapped; what is out leaves its outline. What does not fit scrolls sideways, and
// the finder at the left leads to each group.
#include "screen/tray/tray.h"

#include "screen/art/cable_art.h"
#include "screen/art/part_art.h"
#include "screen/board/scene.h"
#include "screen/kit/tones.h"
#include "screen/kit/widgets.h"
#include "screen/sentences.h"
#include "screen/tray/cells.h"
#include "screen/tray/slots.h"

#include <algorithm>
#include <cmath>

namespace loom::screen {
namespace {

struct Tray {
    const View& view;
    Items& items;
    TrayUi& ui;
    const BoardUi& board;
    art::PictureStore& pictures;
    const Pen& pen;
    Asked& out;
    std::vector<Slot> slots;
    float length = 0.0f;             // of all slots
    Rect area;                       // in which they are seen
    const Cell* described = nullptr; // under the pointer or the keyboard
    Rect describedAt;
};

constexpr const char* kGroupKeys[] = {"tray/parts", "tray/fuses", "tray/cables", "tray/reels"};

// Its front edge, the handle and the shine of a drawer.
void drawFront(const Pen& pen, const Rect& tray) {
    const float round = pen.px(10.0f);
    drawSoftShadow(pen.list, tray, round, pen.px(6.0f), 0.25f);
    pen.list->AddRectFilled(tray.min, tray.max, tone::kTrayFoot, round);
    const Rect inner = shrunk(tray, 1.0f);
    pen.list->AddRectFilledMultiColor({inner.min.x, inner.min.y + round},
                                      {inner.max.x, inner.max.y - round},
                                      tone::kTrayTop,
                                      tone::kTrayTop,
                                      tone::kTrayFoot,
                                      tone::kTrayFoot);
    pen.list->AddRectFilled(inner.min,
                            {inner.max.x, inner.min.y + round},
                            tone::kTrayTop,
                            round,
                            ImDrawFlags_RoundCornersTop);
    pen.list->AddRect(tray.min, tray.max, tone::trayLine, round, 0, 1.4f);
}

// Opens and shuts the drawer. The target lies over its edge, clear of the slots.
void drawHandle(Tray& tray) {
    const Rect& box = tray.view.layout.tray;
    const Pen& pen = tray.pen;
    const float x = box.centre().x;
    const Rect grip{{x - pen.px(40.0f), box.min.y - pen.px(4.0f)},
                    {x + pen.px(40.0f), box.min.y + pen.px(4.0f)}};
    const Rect target{{x - pen.px(56.0f), box.min.y - pen.px(33.0f)},
                      {x + pen.px(56.0f), box.min.y + pen.px(11.0f)}};
    const Touch touch = tray.items.add("tray/handle", words("tray/shut"), Zone::Tray, target);
    pen.list->AddRectFilled(
        grip.min, grip.max, touch.hot ? tone::kOnRoomSoft : tone::kHandle, pen.px(4.0f));
    if (touch.focused) drawFocusRing(pen.list, grip, pen.px(4.0f));
    if (touch.clicked) tray.ui.open = false;
}

void drawShut(const View& view, Items& items, TrayUi& ui, const Pen& pen) {
    const Rect& box = view.layout.tray;
    const Rect bar{{box.min.x, box.max.y - pen.px(44.0f)}, box.max};
    drawFront(pen, bar);
    const std::string label = words("tray/open");
    const Touch touch = items.add("tray/handle", label, Zone::Tray, bar);
    if (touch.hot)
        pen.list->AddRectFilled(bar.min, bar.max, art::fade(IM_COL32_WHITE, 0.05f), pen.px(10.0f));
    const float half = pen.width(Face::Bold, label) * 0.5f;
    pen.centred(Face::Bold, bar.centre(), tone::kOnRoom, label);
    drawChevron(pen.list,
                {bar.centre().x + half + pen.px(18.0f), bar.centre().y},
                pen.px(6.0f),
                {0, -1},
                tone::kOnRoom,
                pen.px(2.2f));
    if (touch.focused) drawFocusRing(pen.list, bar, pen.px(10.0f));
    if (touch.clicked) ui.open = true;
}

constexpr float kChevron = 44.0f; // width of the button at an edge with more beyond it

// One button a group, in as many rows as there is height for. Returns the width used.
float drawFinder(Tray& tray, const std::vector<Group>& groups) {
    const Pen& pen = tray.pen;
    const Rect& box = tray.view.layout.tray;
    const float high = pen.px(44.0f), gap = pen.px(2.0f), pad = pen.px(4.0f);
    const int rows =
        std::max(1, static_cast<int>((box.height() - 2.0f * pad + gap) / (high + gap)));
    const int columns = (static_cast<int>(groups.size()) + rows - 1) / rows;
    float wide = pen.px(56.0f);
    for (const Group group : groups)
        wide = std::max(wide,
                        pen.width(Face::Bold, words(kGroupKeys[static_cast<int>(group)])) +
                            pen.px(16.0f));
    const float clear = pen.px(kChevron + 8.0f); // the way back lies over that much of the row
    const float finder = pad + (wide + gap) * static_cast<float>(columns) + pen.px(4.0f);
    const float most = tray.length - (tray.area.width() - finder);
    const bool atEnd = most > 1.0f && tray.ui.scroll >= most - 1.0f;
    const Group shown =
        atEnd ? groups.back() : groupInSight(tray.slots, tray.ui.scroll + 1.5f * clear);
    for (std::size_t i = 0; i < groups.size(); ++i) {
        const int column = static_cast<int>(i) % columns, row = static_cast<int>(i) / columns;
        const Rect at = rectAt(box.min.x + pad + (wide + gap) * static_cast<float>(column),
                               box.min.y + pad + (high + gap) * static_cast<float>(row),
                               wide,
                               high);
        const std::string label = words(kGroupKeys[static_cast<int>(groups[i])]);
        const Touch touch = tray.items.add("tray/to/" + std::to_string(static_cast<int>(groups[i])),
                                           words("tray/go-to", {{"what", label}}),
                                           Zone::Tray,
                                           at);
        const bool here = groups[i] == shown;
        if (here || touch.hot)
            pen.list->AddRectFilled(
                at.min, at.max, here ? tone::kToolChosen : tone::kSlotHot, pen.px(8.0f));
        pen.centred(Face::Bold, at.centre(), tone::kOnRoom, label);
        if (here)
            pen.list->AddLine({at.min.x + pen.px(10.0f), at.max.y - pen.px(4.0f)},
                              {at.max.x - pen.px(10.0f), at.max.y - pen.px(4.0f)},
                              tone::kAttention,
                              pen.px(2.5f));
        if (touch.focused) drawFocusRing(pen.list, shrunk(at, 2.0f), pen.px(8.0f));
        if (touch.clicked)
            tray.ui.grip.target_px = std::max(0.0f, startOf(tray.slots, groups[i]) - clear);
    }
    return finder;
}

// At an edge beyond which there is more: a fading edge with a chevron that goes on by a page.
void drawMore(Tray& tray, bool forward) {
    const Pen& pen = tray.pen;
    const float at = tray.ui.scroll, most = tray.length - tray.area.width();
    if (forward ? at >= most - 1.0f : at <= 1.0f) return;
    const float wide = pen.px(kChevron);
    const Rect edge = forward ? Rect{{tray.area.max.x - wide, tray.area.min.y}, tray.area.max}
                              : Rect{tray.area.min, {tray.area.min.x + wide, tray.area.max.y}};
    const ImU32 solid = art::blend(tone::kTrayTop, tone::kTrayFoot, 0.5f);
    const ImU32 clear = art::fade(solid, 0.0f);
    const ImU32 left = forward ? clear : solid, right = forward ? solid : clear;
    pen.list->AddRectFilledMultiColor(edge.min, edge.max, left, right, right, left);
    const Touch touch = tray.items.add(forward ? "tray/on" : "tray/back",
                                       words(forward ? "tray/on" : "tray/back"),
                                       Zone::Tray,
                                       edge);
    const ImVec2 centre(edge.centre().x + pen.px(forward ? 8.0f : -8.0f), edge.centre().y);
    pen.list->AddCircleFilled(
        centre, pen.px(15.0f), touch.hot ? tone::kButtonHot : tone::kRoomRaised);
    pen.list->AddCircle(centre, pen.px(15.0f), tone::kButtonLine, 0, 1.2f);
    drawChevron(
        pen.list, centre, pen.px(6.0f), {forward ? 1.0f : -1.0f, 0}, tone::kOnRoom, pen.px(2.2f));
    if (touch.focused) drawFocusRing(pen.list, edge, pen.px(8.0f));
    if (touch.clicked) {
        const float page = tray.area.width() - 2.0f * wide;
        tray.ui.grip.target_px = std::max(0.0f, at + (forward ? page : -page));
    }
}

// A drag that began sideways has scrolled the tray; as soon as it leaves the tray for the board, it
// takes what it began on.
void takeOutOf(Tray& tray, const Cell& cell) {
    const ImGuiIO& io = ImGui::GetIO();
    const bool left = io.MousePos.y < tray.view.layout.tray.min.y - tray.pen.px(4.0f);
    const bool takes = !std::holds_alternative<std::monostate>(cell.hand);
    if (!takes || !left || !tray.ui.grip.dragging || tray.ui.pressed != cell.name) return;
    tray.ui.grip.pressed = tray.ui.grip.dragging = false;
    tray.out.push_back(PickUp{cell.hand, true});
}

// What a press on a cell does: dragged out, tapped, or a reel chosen.
void handle(Tray& tray, const Cell& cell, const Touch& touch) {
    const ImGuiIO& io = ImGui::GetIO();
    const bool takes = !std::holds_alternative<std::monostate>(cell.hand);
    if (touch.pressed) tray.ui.pressed = cell.name;
    takeOutOf(tray, cell);
    if (touch.down && takes && !tray.ui.grip.dragging) {
        const float moved = std::hypot(io.MousePos.x - io.MouseClickedPos[0].x,
                                       io.MousePos.y - io.MouseClickedPos[0].y);
        if (moved > 8.0f) {
            tray.items.letGo();
            tray.ui.grip.pressed = false;
            tray.out.push_back(PickUp{cell.hand, true});
        }
        return;
    }
    if (!touch.clicked) return;
    if (takes) {
        tray.out.push_back(PickUp{cell.hand, false});
    } else if (cell.group == Group::Reels) {
        tray.out.push_back(TakeReel{cell.reel});
    } else if (cell.where) {
        tray.out.push_back(Choose{cell.where});
    }
}

std::string spokenOf(const Cell& cell, bool chosen) {
    std::string out = cell.first + ". " + cell.second;
    if (chosen) out = words("spoken/chosen", {{"what", out}});
    return out;
}

void drawSlots(Tray& tray) {
    const Pen& pen = tray.pen;
    Window window;
    window.area = tray.area;
    Pen inner = pen;
    inner.window = &window;
    SlotPaint paint{tray.pictures, inner, fontSet(tray.view), tray.view.clock_s};
    const float shift = tray.area.min.x - std::round(tray.ui.scroll);
    pen.list->PushClipRect({tray.area.min.x, tray.area.min.y - pen.px(2.0f)}, tray.area.max, true);
    const std::vector<Frame> frames = framesOf(tray.slots);
    for (const Frame& frame : frames)
        drawFrame(paint, frame, shift);
    for (const Slot& slot : tray.slots) {
        const Rect at{{slot.target.min.x + shift, slot.target.min.y},
                      {slot.target.max.x + shift, slot.target.max.y}};
        const bool chosen = slot.cell.group == Group::Reels && slot.cell.reel == tray.board.reel;
        const Touch touch =
            press(inner, tray.items, slot.cell.name, spokenOf(slot.cell, chosen), Zone::Tray, at);
        if (at.max.x > tray.area.min.x && at.min.x < tray.area.max.x)
            drawSlot(paint, slot, shift, touch, chosen);
        if (touch.focused || (touch.hot && !touch.down)) {
            tray.described = &slot.cell;
            tray.describedAt = at;
        }
        handle(tray, slot.cell, touch);
    }
    for (const Frame& frame : frames)
        if (!frame.badge.empty())
            drawBadge(pen,
                      {frame.box.max.x + shift - pen.px(6.0f), frame.box.min.y + pen.px(3.0f)},
                      frame.badge);
    pen.list->PopClipRect();
    followFocus(window, Axis::Across, pen.px(56.0f), tray.ui.scroll, tray.ui.grip);
}

// A slip over the tray with what the thing is.
void drawDescribed(const Tray& tray) {
    if (!tray.described || holdsSomething(tray.board)) return;
    const Pen& pen = tray.pen;
    const float pad = pen.px(14.0f),
                wide = std::max(pen.width(Face::Bold, tray.described->first),
                                pen.width(Face::Body, tray.described->second)) +
                       2.0f * pad;
    const float high = pen.px(62.0f), edge = pen.px(6.0f);
    const float right = ImGui::GetIO().DisplaySize.x - edge;
    float x = tray.describedAt.centre().x - wide * 0.5f;
    x = std::max(edge, std::min(x, right - wide));
    const Rect slip = rectAt(x, tray.view.layout.tray.min.y - high - pen.px(8.0f), wide, high);
    drawSoftShadow(pen.list, slip, pen.px(8.0f), pen.px(8.0f), 0.35f);
    pen.list->AddRectFilled(slip.min, slip.max, tone::kPaper, pen.px(8.0f));
    pen.list->AddRect(slip.min, slip.max, tone::kAttention, pen.px(8.0f), 0, 1.6f);
    const float middle = slip.centre().y;
    pen.centred(
        Face::Bold, {slip.centre().x, middle - pen.px(12.0f)}, tone::kInk, tray.described->first);
    pen.centred(Face::Body,
                {slip.centre().x, middle + pen.px(12.0f)},
                tone::kInkSoft,
                tray.described->second);
}

// While a part or a cable that can be put away is held over it.
void drawTakesBack(const Tray& tray) {
    const Hand& hand = tray.board.hand;
    const Rect& box = tray.view.layout.tray;
    const bool fromBoard =
        std::holds_alternative<PartInHand>(hand) || std::holds_alternative<EndInHand>(hand);
    const bool fromTray =
        std::holds_alternative<FromTray>(hand) || std::holds_alternative<ReadyMade>(hand);
    // What was tapped in the tray has not left it yet: the next tap says where it is to lie.
    const bool puts = fromBoard || (fromTray && tray.board.carried);
    if (!puts || !box.contains(tray.board.hand_px)) return;
    const Pen& pen = tray.pen;
    pen.list->AddRectFilled(box.min, box.max, art::fade(tone::kRoomDeep, 0.55f), pen.px(10.0f));
    pen.list->AddRect(box.min, box.max, tone::kAttention, pen.px(10.0f), 0, 2.5f);
    const std::string said = words("tray/put-back");
    const ImVec2 middle = box.centre(),
                 half{pen.width(Face::Title, said) * 0.5f + pen.px(12.0f), pen.px(18.0f)};
    pen.list->AddRectFilled({middle.x - half.x, middle.y - half.y},
                            {middle.x + half.x, middle.y + half.y},
                            tone::kRoomDeep,
                            pen.px(8.0f));
    pen.centred(Face::Title, middle, tone::kOnRoom, said);
}

// The row, with the finder when it does not all fit.
void placeRow(Tray& tray, const std::vector<Cell>& cells) {
    const Rect& box = tray.view.layout.tray;
    const Pen& pen = tray.pen;
    tray.slots = slotsOf(pen, cells, box);
    tray.length = lengthOf(tray.slots) + pen.px(14.0f);
    tray.area = {{box.min.x + pen.px(2.0f), box.min.y + pen.px(1.0f)},
                 {box.max.x - pen.px(2.0f), box.max.y - pen.px(1.0f)}};
    if (tray.length > tray.area.width()) tray.area.min.x += drawFinder(tray, groupsOf(cells));
    scrollBy(tray.items,
             tray.area,
             Axis::Across,
             tray.length,
             !holdsSomething(tray.board) && tray.view.over == Over::Nothing,
             tray.ui.scroll,
             tray.ui.grip);
}

} // namespace

void drawTray(const View& view,
              Items& items,
              TrayUi& ui,
              const BoardUi& board,
              art::PictureStore& pictures,
              ImDrawList* list,
              Asked& out) {
    const Pen pen(view, list);
    if (!ui.open) return drawShut(view, items, ui, pen);
    drawFront(pen, view.layout.tray);
    if (ImGui::GetIO().MouseClicked[0]) ui.pressed.clear();
    Tray tray{view, items, ui, board, pictures, pen, out, {}, 0.0f, {}, nullptr, {}};
    drawHandle(tray);
    placeRow(tray, trayCells(view.session->attempt().bench()));
    drawSlots(tray);
    drawMore(tray, false);
    drawMore(tray, true);
    drawTakesBack(tray);
    drawDescribed(tray);
}

} // namespace loom::screen

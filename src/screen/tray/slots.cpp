// SPDX-License-Identifier: MIT
#include "screen/tray/slots.h"

#include "bench/catalogue.h"
#include "screen/art/cable_art.h"
#include "screen/art/part_art.h"
#include "screen/kit/part_words.h"
#include "screen/kit/tones.h"
#include "screen/kit/widgets.h"
#include "screen/sentences.h"

#include <algorithm>
#include <cmath>

namespace loom::screen {
namespace {

constexpr float kSideGap = 11.0f, kGroupGap = 16.0f, kStartGap = 12.0f;
constexpr float kBoxTop = 12.0f, kBoxHeight = 54.0f, kCaptionMiddle = 82.0f; // one row
constexpr float kRowTop = 14.0f, kRowHeight = 64.0f, kRowPitch = 76.0f;      // two rows
constexpr float kTwoRowsFrom = 150.0f; // height of a tray that takes two

// Pixels a metre at which a part fits into a box.
float fittingScale(bench::PartKind kind, float width, float height) {
    const bench::PartSpec& spec = bench::spec(kind);
    return std::min(width / static_cast<float>(spec.width_m),
                    height / static_cast<float>(spec.height_m));
}

// A cell with its picture at the left and its name at the right end, in design pixels.
constexpr float kPictureLeft = 8.0f, kPictureWide = 76.0f, kNameGap = 8.0f, kNameRight = 10.0f;

float widthAlone(const Pen& pen, const Cell& cell) {
    switch (cell.group) {
    case Group::Parts: {
        const float scale = fittingScale(cell.part.kind, pen.px(104.0f), pen.px(42.0f));
        const float picture =
            scale * static_cast<float>(bench::spec(cell.part.kind).width_m) + pen.px(22.0f);
        return std::max(
            {pen.px(70.0f), picture, pen.width(Face::Bold, cell.caption) + pen.px(6.0f)});
    }
    case Group::Fuses:
        return pen.px(cell.strip ? 60.0f : 46.0f);
    case Group::Cables:
        return std::max(pen.px(46.0f), pen.width(Face::Bold, cell.caption) + pen.px(12.0f));
    case Group::Reels:
        break;
    }
    const float words = std::max(pen.width(Face::Bold, cell.caption),
                                 pen.width(Face::Body, sleeveWords(cell.sleeve)));
    return words + pen.px(50.0f);
}

float widthBeside(const Pen& pen, const Cell& cell) {
    switch (cell.group) {
    case Group::Parts:
        return std::max(pen.px(150.0f),
                        pen.width(Face::Bold, cell.caption) +
                            pen.px(kPictureLeft + kPictureWide + kNameGap + kNameRight));
    case Group::Fuses:
        return pen.px(cell.strip ? 84.0f : 64.0f);
    case Group::Cables:
        return pen.width(Face::Bold, cell.caption) + pen.px(56.0f);
    case Group::Reels:
        break;
    }
    return widthAlone(pen, cell) + pen.px(6.0f);
}

bool framedTogether(const Cell& cell) {
    return cell.group != Group::Parts;
}

std::vector<Slot> inOneRow(const Pen& pen, const std::vector<Cell>& cells, const Rect& tray) {
    std::vector<Slot> out;
    float x = pen.px(kStartGap);
    for (const Cell& cell : cells) {
        const Cell* before = out.empty() ? nullptr : &out.back().cell;
        if (before && before->group != cell.group)
            x += pen.px(kGroupGap) - (framedTogether(*before) ? 0.0f : pen.px(kSideGap));
        const float wide = widthAlone(pen, cell);
        Slot slot;
        slot.cell = cell;
        slot.box = rectAt(x, tray.min.y + pen.px(kBoxTop), wide, pen.px(kBoxHeight));
        slot.target = {{slot.box.min.x, tray.min.y + pen.px(kBoxTop - 2.0f)},
                       {slot.box.max.x, tray.min.y + pen.px(kCaptionMiddle + 12.0f)}};
        out.push_back(std::move(slot));
        x += wide + (framedTogether(cell) ? 0.0f : pen.px(kSideGap));
    }
    return out;
}

// Two by two, column after column; a group starts a column of its own.
std::vector<Slot> inTwoRows(const Pen& pen, const std::vector<Cell>& cells, const Rect& tray) {
    std::vector<Slot> out;
    float x = pen.px(kStartGap);
    std::size_t i = 0;
    while (i < cells.size()) {
        const std::size_t start = i;
        std::size_t end = i + 1;
        if (end < cells.size() && cells[end].group == cells[start].group) ++end;
        float wide = 0.0f;
        for (std::size_t k = start; k < end; ++k)
            wide = std::max(wide, widthBeside(pen, cells[k]));
        for (std::size_t k = start; k < end; ++k) {
            Slot slot;
            slot.cell = cells[k];
            slot.beside = true;
            slot.box =
                rectAt(x,
                       tray.min.y + pen.px(kRowTop + kRowPitch * static_cast<float>(k - start)),
                       wide,
                       pen.px(kRowHeight));
            slot.target = slot.box;
            out.push_back(std::move(slot));
        }
        x += wide + pen.px(kSideGap);
        if (end < cells.size() && cells[end].group != cells[start].group) x += pen.px(8.0f);
        i = end;
    }
    return out;
}

Frame frameRound(const std::vector<Slot>& slots, std::size_t first, std::size_t end) {
    Frame frame;
    frame.box = {slots[first].box.min, slots[end - 1].box.max};
    const Cell& cell = slots[first].cell;
    const float y = frame.box.min.y + (kCaptionMiddle - kBoxTop) / kBoxHeight * frame.box.height();
    frame.captionAt = {frame.box.centre().x, y};
    std::size_t left = 0;
    for (std::size_t i = first; i < end; ++i)
        left += slots[i].cell.left;
    switch (cell.group) {
    case Group::Parts:
        frame.dashed = cell.out;
        if (!slots[first].beside) frame.caption = cell.caption;
        if (left > 0 && (!slots[first].beside || left > 1)) frame.badge = std::to_string(left);
        break;
    case Group::Fuses:
        frame.caption = words("tray/fuses");
        break;
    case Group::Cables: // each carries its own label
        if (!slots[first].beside && left > 0) frame.badge = std::to_string(left);
        break;
    case Group::Reels:
        frame.caption = words("tray/reels");
        break;
    }
    if (slots[first].beside) frame.caption.clear();
    return frame;
}

art::PartLook lookOf(const Cell& cell, ImVec2 centre, float scale) {
    art::PartLook look;
    look.kind = cell.part.kind;
    look.centre = centre;
    look.px_per_m = scale;
    look.rating = cell.part.rating;
    look.position = static_cast<float>(bench::spec(cell.part.kind).restPosition);
    return look;
}

void drawPartCell(const SlotPaint& paint, const Slot& slot, const Rect& box) {
    const Pen& pen = paint.pen;
    const float wide = slot.beside ? pen.px(kPictureWide) : box.width() - pen.px(16.0f);
    const float high = box.height() - pen.px(slot.beside ? 16.0f : 12.0f);
    const float scale = fittingScale(slot.cell.part.kind, wide, high);
    const ImVec2 centre(slot.beside ? box.min.x + pen.px(kPictureLeft + 0.5f * kPictureWide)
                                    : box.centre().x,
                        box.centre().y);
    const art::PartLook look = lookOf(slot.cell, centre, scale);
    if (slot.cell.out)
        art::drawCutOut(pen.list, look);
    else
        // Its lettering would be too small to read.
        art::drawPart(pen.list, paint.pictures, art::FontSet{}, look);
    if (slot.beside)
        pen.right(Face::Bold,
                  {box.max.x - pen.px(kNameRight), box.centre().y},
                  slot.cell.out ? tone::kOnRoomSoft : tone::kOnRoom,
                  slot.cell.caption);
}

// A bolt-down strip: metal with a hole at each end and the narrow part between.
void drawStripCell(const Pen& pen, const Cell& cell, ImVec2 centre) {
    const float half = pen.px(25.0f), high = pen.px(11.0f);
    pen.list->AddRectFilled({centre.x - half, centre.y - high},
                            {centre.x + half, centre.y + high},
                            tone::kSteel,
                            pen.px(4.0f));
    pen.list->AddRect({centre.x - half, centre.y - high},
                      {centre.x + half, centre.y + high},
                      tone::kSteelDark,
                      pen.px(4.0f),
                      0,
                      1.0f);
    for (const float side : {-1.0f, 1.0f})
        pen.list->AddCircleFilled(
            {centre.x + side * (half - pen.px(6.0f)), centre.y}, pen.px(3.2f), tone::kSlot);
    pen.centred(Face::Bold, centre, tone::kInk, plainNumber(cell.rating_A));
}

void drawFuseCell(const SlotPaint& paint, const Cell& cell, const Rect& box) {
    if (cell.strip) return drawStripCell(paint.pen, cell, box.centre());
    const float scale = paint.pen.px(33.0f) / 0.043f;
    art::drawBlade(paint.pen.list, paint.fonts, box.centre(), scale, cell.rating_A, 0.0f, false);
}

void drawCableCell(const SlotPaint& paint, const Slot& slot, const Rect& box) {
    const Pen& pen = paint.pen;
    const Cell& cell = slot.cell;
    const ImVec2 centre(slot.beside ? box.min.x + pen.px(26.0f) : box.centre().x,
                        box.centre().y + pen.px(1.0f));
    art::CableLook look;
    look.sleeve = cell.sleeve;
    look.area_m2 = cell.area_m2;
    if (cell.out) look.alpha = 0.18f;
    art::drawHungCable(pen.list, paint.pictures, centre, pen.px(0.82f) * 1000.0f, look);
    const ImU32 colour = cell.out ? tone::kOnRoomSoft : tone::kOnRoom;
    if (slot.beside)
        pen.right(Face::Bold, {box.max.x - pen.px(10.0f), box.centre().y}, colour, cell.caption);
    else
        pen.centred(Face::Bold,
                    {box.centre().x, box.max.y + pen.px(kCaptionMiddle - kBoxTop - kBoxHeight)},
                    colour,
                    cell.caption);
}

// The chosen reel is ringed and ticked: new cables are cut from it.
void drawReelCell(const SlotPaint& paint, const Slot& slot, const Rect& box, bool chosen) {
    const Pen& pen = paint.pen;
    const ImVec2 centre(box.min.x + pen.px(24.0f), box.centre().y);
    art::drawReel(pen.list, centre, pen.px(16.0f), slot.cell.sleeve);
    const float x = centre.x + pen.px(22.0f);
    pen.left(Face::Bold, {x, centre.y - pen.px(11.5f)}, tone::kOnRoom, slot.cell.caption);
    pen.left(
        Face::Body, {x, centre.y + pen.px(11.5f)}, tone::kOnRoom, sleeveWords(slot.cell.sleeve));
    if (!chosen) return;
    const Rect ring = shrunk(box, pen.px(2.5f));
    pen.list->AddRect(ring.min, ring.max, tone::kAttention, pen.px(7.0f), 0, pen.px(2.4f));
    drawMark(
        pen.list, {centre.x + pen.px(12.0f), centre.y + pen.px(12.0f)}, pen.px(8.5f), Mark::Done);
}

Rect moved(const Rect& r, float shift_px) {
    return {{r.min.x + shift_px, r.min.y}, {r.max.x + shift_px, r.max.y}};
}

} // namespace

std::vector<Slot> slotsOf(const Pen& pen, const std::vector<Cell>& cells, const Rect& tray) {
    return tray.height() >= pen.px(kTwoRowsFrom) ? inTwoRows(pen, cells, tray)
                                                 : inOneRow(pen, cells, tray);
}

std::vector<Frame> framesOf(const std::vector<Slot>& slots) {
    std::vector<Frame> out;
    std::size_t i = 0;
    while (i < slots.size()) {
        std::size_t end = i + 1;
        if (framedTogether(slots[i].cell) && !slots[i].beside)
            while (end < slots.size() && slots[end].cell.group == slots[i].cell.group)
                ++end;
        out.push_back(frameRound(slots, i, end));
        i = end;
    }
    return out;
}

float lengthOf(const std::vector<Slot>& slots) {
    return slots.empty() ? 0.0f : slots.back().box.max.x;
}

std::vector<Group> groupsOf(const std::vector<Cell>& cells) {
    std::vector<Group> out;
    for (const Cell& cell : cells)
        if (out.empty() || out.back() != cell.group) out.push_back(cell.group);
    return out;
}

float startOf(const std::vector<Slot>& slots, Group group) {
    for (const Slot& slot : slots)
        if (slot.cell.group == group) return std::max(0.0f, slot.box.min.x - 14.0f);
    return 0.0f;
}

Group groupInSight(const std::vector<Slot>& slots, float at) {
    Group shown = Group::Parts;
    for (const Slot& slot : slots)
        if (slot.box.min.x <= at || &slot == &slots.front()) shown = slot.cell.group;
    return shown;
}

void drawFrame(const SlotPaint& paint, const Frame& frame, float shift_px) {
    const Pen& pen = paint.pen;
    const Rect box = moved(frame.box, shift_px);
    pen.list->AddRectFilled(box.min, box.max, tone::kSlot, pen.px(8.0f));
    // Cut into the foam: dark at the upper edge.
    pen.list->AddRectFilled(box.min,
                            {box.max.x, box.min.y + pen.px(6.0f)},
                            art::fade(IM_COL32_BLACK, 0.18f),
                            pen.px(8.0f),
                            ImDrawFlags_RoundCornersTop);
    if (frame.dashed)
        drawDashedBox(pen.list, box, pen.px(8.0f), tone::trayLine, 1.3f);
    else
        pen.list->AddRect(box.min, box.max, tone::trayLine, pen.px(8.0f), 0, 1.2f);
    if (!frame.caption.empty())
        pen.centred(Face::Bold,
                    {frame.captionAt.x + shift_px, frame.captionAt.y},
                    frame.dashed ? tone::kOnRoomSoft : tone::kOnRoom,
                    frame.caption);
}

void drawSlot(
    const SlotPaint& paint, const Slot& slot, float shift_px, const Touch& touch, bool chosen) {
    const Pen& pen = paint.pen;
    const Rect box = moved(slot.box, shift_px);
    if (touch.hot && !slot.cell.out)
        pen.list->AddRectFilled(box.min, box.max, art::fade(IM_COL32_WHITE, 0.07f), pen.px(8.0f));
    switch (slot.cell.group) {
    case Group::Parts:
        drawPartCell(paint, slot, box);
        break;
    case Group::Fuses:
        drawFuseCell(paint, slot.cell, box);
        break;
    case Group::Cables:
        drawCableCell(paint, slot, box);
        break;
    case Group::Reels:
        drawReelCell(paint, slot, box, chosen);
        break;
    }
    if (touch.focused) drawFocusRing(pen.list, shrunk(box, 3.0f), pen.px(8.0f));
}

} // namespace loom::screen

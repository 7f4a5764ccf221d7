// SPDX-License-Identifier: MIT
#include "screen/tray/cells.h"

#include "bench/catalogue.h"
#include "screen/kit/part_words.h"
#include "screen/sentences.h"

#include <algorithm>

namespace loom::screen {
namespace {

// "K1", "K1 and K2", "F2, F3 and F4".
std::string listed(const std::vector<std::string>& names) {
    std::string out;
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (i > 0) out += i + 1 == names.size() ? words("list/and") : words("list/comma");
        out += names[i];
    }
    return out;
}

// All slots of a kind. Taking hands out the first that is not out.
Cell partCell(const bench::Bench& bench, bench::PartKind kind) {
    Cell cell;
    cell.caption = kindWords(kind);
    std::vector<std::string> refs;
    const bench::PartSlot* next = nullptr;
    const bench::PartSlot* firstSlot = nullptr;
    for (const bench::PartSlot& slot : bench.kit.parts) {
        if (slot.kind != kind) continue;
        if (!firstSlot) firstSlot = &slot;
        if (isOut(bench, slot)) continue;
        if (!next) next = &slot;
        refs.push_back(slot.ref);
    }
    const bench::PartSlot* shown = next ? next : firstSlot; // the one that is taken
    cell.second = aboutPart(kind, shown ? shown->rating : 0.0);
    cell.left = refs.size();
    cell.out = next == nullptr;
    cell.part = next ? *next : *firstSlot;
    cell.name = "tray/" + cell.part.ref;
    if (next) {
        cell.hand = FromTray{next->ref};
        cell.first = words("tray/part", {{"kind", cell.caption}, {"parts", listed(refs)}});
    } else {
        cell.first = words("tray/part-out", {{"kind", cell.caption}});
        cell.second = words("tray/find");
        if (const bench::Part* part = findPart(bench, firstSlot->ref)) cell.where = part->id;
    }
    return cell;
}

void appendParts(const bench::Bench& bench, std::vector<Cell>& out) {
    std::vector<bench::PartKind> seenKinds;
    for (const bench::PartSlot& slot : bench.kit.parts) {
        if (std::find(seenKinds.begin(), seenKinds.end(), slot.kind) != seenKinds.end()) continue;
        seenKinds.push_back(slot.kind);
        out.push_back(partCell(bench, slot.kind));
    }
}

Cell fuseCell(double rating_A, bool strip) {
    Cell cell;
    cell.group = Group::Fuses;
    cell.name = (strip ? "tray/strip/" : "tray/blade/") + plainNumber(rating_A);
    cell.first = words(strip ? "tray/strip" : "tray/blade", {{"rating", plainNumber(rating_A)}});
    cell.second = words(strip ? "about/strip" : "about/blade");
    cell.hand = FuseInHand{rating_A};
    cell.rating_A = rating_A;
    cell.strip = strip;
    return cell;
}

// Strips are of use once a bolt-down holder is on the bench.
void appendFuses(const bench::Bench& bench, std::vector<Cell>& out) {
    std::vector<double> blades = bench.kit.blades_A;
    std::sort(blades.begin(), blades.end());
    for (const double rating_A : blades)
        out.push_back(fuseCell(rating_A, false));
    for (const bench::Part& part : bench.parts) {
        const auto& fuse = bench::spec(part.kind).fuse;
        if (!fuse || fuse->stock_A.empty()) continue;
        for (const double rating_A : ratingsAtHand(bench, part.id))
            out.push_back(fuseCell(rating_A, true));
        return;
    }
}

void appendCables(const bench::Bench& bench, std::vector<Cell>& out) {
    for (const bench::CableSlot& slot : bench.kit.readyMade) {
        Cell cell;
        cell.group = Group::Cables;
        cell.name = "tray/cable/" + slot.label;
        cell.caption = slot.label;
        cell.out = isOut(bench, slot);
        cell.left = cell.out ? 0 : 1;
        cell.first = words(cell.out ? "tray/cable-out" : "tray/cable", {{"cable", slot.label}});
        cell.second = words("tray/cable-about",
                            {{"size", squareMillimetres(slot.area_m2)},
                             {"colour", sleeveWords(slot.sleeve)},
                             {"length", amount(slot.length_m, "m")},
                             {"from", endWords(slot.ends[0])},
                             {"to", endWords(slot.ends[1])}});
        cell.sleeve = slot.sleeve;
        cell.area_m2 = slot.area_m2;
        if (!cell.out) cell.hand = ReadyMade{slot.label};
        out.push_back(std::move(cell));
    }
}

void appendReels(const bench::Bench& bench, std::vector<Cell>& out) {
    for (std::size_t i = 0; i < bench.kit.reels.size(); ++i) {
        const bench::Reel& reel = bench.kit.reels[i];
        Cell cell;
        cell.group = Group::Reels;
        cell.name = "tray/reel/" + std::to_string(i);
        cell.caption = squareMillimetres(reel.area_m2);
        cell.first =
            words("tray/reel", {{"size", cell.caption}, {"colour", sleeveWords(reel.sleeve)}});
        cell.second = words("about/reel");
        cell.sleeve = reel.sleeve;
        cell.area_m2 = reel.area_m2;
        cell.reel = i;
        out.push_back(std::move(cell));
    }
}

} // namespace

std::vector<Cell> trayCells(const bench::Bench& bench) {
    std::vector<Cell> cells;
    appendParts(bench, cells);
    appendFuses(bench, cells);
    appendCables(bench, cells);
    appendReels(bench, cells);
    return cells;
}

} // namespace loom::screen

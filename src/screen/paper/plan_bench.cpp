// SPDX-License-Identifier: MIT
#include "screen/paper/plan_bench.h"

#include "bench/catalogue.h"
#include "bench/limits.h"
#include "bench/terminal_phrase.h"
#include "screen/sentences.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace loom::screen {
namespace {

// The same hole or the other one of the same way.
bool endIsAt(const bench::Bench& bench, const bench::CableEnd& end, const plan::Spot& spot) {
    if (!end.at) return false;
    const bench::Part* part = bench::findPart(bench, end.at->part);
    if (!part || part->ref != spot.ref) return false;
    const auto wanted = bench::findTerminal(bench, spot.ref, spot.terminal);
    if (!wanted) return false;
    const auto& terminals = bench::spec(part->kind).terminals;
    return terminals[wanted->terminal].node == terminals[end.at->terminal].node;
}

int endsThere(const bench::Bench& bench, const plan::PlanCable& row, const bench::Cable& cable) {
    const auto both = [&](int first) {
        return (endIsAt(bench, cable.ends[first], row.from) ? 1 : 0) +
               (endIsAt(bench, cable.ends[1 - first], row.to) ? 1 : 0);
    };
    return std::max(both(0), both(1));
}

std::string metres(double length_m) {
    char text[32];
    std::snprintf(text, sizeof text, "%.2f m", length_m);
    return text;
}

std::string choiceWords(const Chosen& chosen) {
    if (const auto* cable = std::get_if<bench::CableId>(&chosen))
        return std::to_string(cable->number);
    return chosen.index() == 0 ? "" : "other";
}

// The board as near as both points allow, with room about them.
void lookAt(const Leaf& leaf, bench::Point a, bench::Point b, double least_m) {
    const bench::Bench& bench = leaf.view.session->attempt().bench();
    const Rect& board = leaf.boardSeen;
    const double fit =
        std::min(board.width() / bench.board_m.x_m, board.height() / bench.board_m.y_m);
    const double across = std::max(std::fabs(a.x_m - b.x_m) + 0.3, least_m);
    const double down = std::max(std::fabs(a.y_m - b.y_m) + 0.3, least_m);
    const double scale = std::min(board.width() / across, board.height() / down);
    leaf.out.push_back(LookAt{{scale / fit, (a.x_m + b.x_m) / 2, (a.y_m + b.y_m) / 2, true}});
}

// Where the end lies on the bench, or where its terminal is.
std::optional<bench::Point>
placeOnBench(const bench::Bench& bench, const plan::PlanCable& row, bench::CableId id, int end) {
    if (const bench::Cable* cable = bench::findCable(bench, id)) {
        const int own = endIsAt(bench, cable->ends[1 - end], end == 0 ? row.from : row.to) ||
                                endIsAt(bench, cable->ends[end], end == 0 ? row.to : row.from)
                            ? 1 - end
                            : end;
        return bench::endAt(bench, cable->ends[own]);
    }
    const plan::Spot& spot = end == 0 ? row.from : row.to;
    if (const auto terminal = bench::findTerminal(bench, spot.ref, spot.terminal))
        return bench::terminalAt(bench, *terminal);
    return std::nullopt;
}

} // namespace

const plan::Plan* planOf(const lesson::Session& session) {
    const lesson::Exercise* exercise = session.exercise();
    return exercise && exercise->plan ? &*exercise->plan : nullptr;
}

const lesson::Procedure* procedureOn(const lesson::Session& session) {
    return planOf(session) ? &session.procedure() : nullptr;
}

std::vector<RowOnBench> rowsOnBench(const plan::Plan& plan, const bench::Bench& bench) {
    std::vector<RowOnBench> out(plan.cables.size());
    std::vector<bool> used(bench.cables.size(), false);
    for (const int least : {2, 1, 0}) // what fits well first
        for (std::size_t i = 0; i < out.size(); ++i) {
            if (out[i].cable) continue;
            for (std::size_t j = 0; j < bench.cables.size(); ++j) {
                const bench::Cable& cable = bench.cables[j];
                if (used[j] || cable.label != plan.cables[i].label ||
                    endsThere(bench, plan.cables[i], cable) < least)
                    continue;
                const bool joined = cable.ends[0].at && cable.ends[1].at;
                out[i] = {cable.id, joined ? Laid::Joined : Laid::Loose};
                used[j] = true;
                break;
            }
        }
    return out;
}

std::string placeOf(const plan::Plan& plan, const plan::Spot& spot) {
    if (spot.terminal == "plus") return spot.ref + " +";
    if (spot.terminal == "minus") return spot.ref + " \u2212";
    for (const plan::PlanPart& part : plan.parts)
        if (part.ref == spot.ref) return text(plan::placeName(part.kind, spot));
    return text(bench::terminalPhrase(spot.ref, spot.terminal));
}

std::string makeOf(const plan::PlanCable& cable) {
    return words("plan/make",
                 {{"size", squareMillimetres(cable.area_m2)},
                  {"colour", words(std::string("sleeve/") + bench::word(cable.sleeve))},
                  {"length", metres(cable.length_m)},
                  {"from", words(std::string("end/") + bench::word(cable.ends[0]))},
                  {"to", words(std::string("end/") + bench::word(cable.ends[1]))}});
}

std::string spokenRow(const plan::Plan& plan, const plan::PlanCable& cable, Laid laid) {
    const char* state = laid == Laid::Joined  ? "plan/laid"
                        : laid == Laid::Loose ? "plan/loose"
                                              : "plan/not-laid";
    return words("plan/spoken",
                 {{"cable", cable.label},
                  {"from", placeOf(plan, cable.from)},
                  {"to", placeOf(plan, cable.to)},
                  {"make", makeOf(cable)},
                  {"state", words(state)}}) +
           (cable.note.empty() ? "" : " " + text(cable.note) + ".");
}

void chooseOnBoard(const Leaf& leaf, const Chosen& chosen) {
    leaf.out.push_back(Choose{chosen});
    leaf.ui.plan.boardChoice = choiceWords(chosen);
}

void chooseRow(const Leaf& leaf, const plan::Plan& plan, std::size_t row) {
    const bench::Bench& bench = leaf.view.session->attempt().bench();
    leaf.ui.plan.row = row;
    leaf.ui.planCable = plan.cables[row].label;
    const bench::CableId cable = rowsOnBench(plan, bench)[row].cable;
    chooseOnBoard(leaf, cable ? Chosen(cable) : Chosen());
    const auto a = placeOnBench(bench, plan.cables[row], cable, 0);
    const auto b = placeOnBench(bench, plan.cables[row], cable, 1);
    if (!leaf.ui.plan.wide || !a || !b) return;
    if (!leaf.ui.plan.cameraBefore) leaf.ui.plan.cameraBefore = leaf.board.camera;
    lookAt(leaf, *a, *b, 0.0);
}

void followBench(const Leaf& leaf, const plan::Plan& plan) {
    PlanUi& ui = leaf.ui.plan;
    const std::string now = choiceWords(leaf.board.chosen);
    if (now == ui.boardChoice) return;
    ui.boardChoice = now;
    const auto* id = std::get_if<bench::CableId>(&leaf.board.chosen);
    if (!id) return;
    const auto rows = rowsOnBench(plan, leaf.view.session->attempt().bench());
    ui.row.reset();
    leaf.ui.planCable.clear();
    for (std::size_t i = 0; i < rows.size(); ++i)
        if (rows[i].cable == *id) {
            ui.row = i;
            leaf.ui.planCable = plan.cables[i].label;
        }
}

void showEnd(const Leaf& leaf, const plan::Plan& plan, std::size_t row, int end) {
    const bench::Bench& bench = leaf.view.session->attempt().bench();
    const bench::CableId cable = rowsOnBench(plan, bench)[row].cable;
    chooseOnBoard(leaf, cable ? Chosen(cable) : leaf.board.chosen);
    if (const auto at = placeOnBench(bench, plan.cables[row], cable, end))
        lookAt(leaf, *at, *at, 0.34);
    leaf.ui.pulledIn = false; // on a tablet it lies over the board
}

const PlanCache& cacheOf(const Leaf& leaf, const plan::Plan& plan) {
    PlanCache& cache = leaf.ui.plan.cache;
    const std::string exercise = leaf.job.exercise->id + "/" + leaf.job.exercise->hash;
    if (cache.exercise != exercise) {
        cache = {};
        cache.exercise = exercise;
        cache.drawing = plan::drawPlan(plan);
    }
    const attempt::Attempt& attempt = leaf.view.session->attempt();
    if (cache.revision != attempt.revision()) {
        cache.revision = attempt.revision();
        cache.sheet = leaf.view.session->sheet();
        cache.findings.clear();
        if (cache.sheet.handedIn)
            cache.findings = lesson::sheetFindings(plan, attempt, cache.sheet);
    }
    return cache;
}

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// A page of paper being written: lines, boxes, letters and tables in millimetres, as SVG. Used by
// print_*.cpp only. Make a Page, draw on it, take finish().
#pragma once

#include "plan/drawing.h"
#include "plan/print.h"

#include <string>
#include <vector>

namespace loom::plan {

enum class Anchor { Start, Middle, End };

struct Letters {
    double size_mm = 3.6;
    bool bold = false;
    Anchor anchor = Anchor::Start;
    double turn_deg = 0.0;
};

class Page {
public:
    // With its heading, a line of cautions at the foot, and its number.
    Page(const PrintJob& job, const std::string& name, std::size_t number, std::size_t of);

    // The middle of the capitals stands at the point.
    void text(Mm at, const std::string& words, const Letters& letters = {});
    // Cut with "…" where it is wider than that.
    void textWithin(Mm at, double width_mm, const std::string& words, const Letters& letters = {});
    void line(Mm a, Mm b, double width_mm, const char* dashes = "");
    void box(const MmBox& box, double radius_mm, double stroke_mm, const char* fill = "none");
    void path(const std::vector<Mm>& points,
              const std::string& colour,
              double width_mm,
              const std::string& dashes = "");

    std::string finish();

private:
    std::string out;
};

inline constexpr double kPageLeft_mm = 12.0, kPageRight_mm = 285.0, kPageTop_mm = 22.0,
                        kPageFoot_mm = 196.0;

// A table: its columns, and rows of cells; a cell "[]" is a box to tick.
struct Column {
    std::string head;
    double width_mm = 20.0;
    bool bold = false;
};

struct Table {
    std::vector<Column> columns;
    std::vector<std::vector<std::string>> rows;
};

inline constexpr double kTableRow_mm = 4.7;

// Draws rows from `first` on between the heights; returns how many were drawn.
std::size_t drawTable(Page& page, const Table& table, std::size_t first, double top, double foot);
// As many pages as it takes.
std::vector<std::string>
tablePages(const PrintJob& job, const std::string& name, const Table& table);

// How a sleeve is drawn: its colour over white, in a pattern that tells it without colour; and its
// letters (IEC 60757).
struct SleeveInk {
    const char* colour;
    const char* dashes;
    const char* letters;
};

SleeveInk sleeveInk(bench::Sleeve sleeve);
void drawSleeve(Page& page, const std::vector<Mm>& points, bench::Sleeve sleeve, double width_mm);

// "6", "0.75"; "0.35"; "red RD"; "ring M6".
std::string mm2Words(double area_m2);
std::string metresWords(double length_m);
std::string sleeveWords(const PrintJob& job, bench::Sleeve sleeve);
std::string endWords(const PrintJob& job, bench::EndKind end);
std::string placeWords(const PrintJob& job, const Spot& spot);

} // namespace loom::plan

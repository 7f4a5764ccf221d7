// SPDX-License-Identifier: MIT
#include "plan/print_page.h"

#include "bench/catalogue.h"
#include "bench/limits.h"
#include "bench/terminal_phrase.h"

#include <cstdio>

namespace loom::plan {
namespace {

std::string number(double value) {
    char text[32];
    std::snprintf(text, sizeof text, "%.2f", value);
    std::string out = text;
    while (out.back() == '0')
        out.pop_back();
    if (out.back() == '.') out.pop_back();
    return out == "-0" ? "0" : out;
}

std::string escaped(const std::string& words) {
    std::string out;
    for (const char c : words) {
        switch (c) {
        case '&':
            out += "&amp;";
            break;
        case '<':
            out += "&lt;";
            break;
        case '>':
            out += "&gt;";
            break;
        case '"':
            out += "&quot;";
            break;
        default:
            if (static_cast<unsigned char>(c) >= 0x20u) out += c;
        }
    }
    return out;
}

std::string attribute(const char* name, double value) {
    return std::string(" ") + name + "=\"" + number(value) + "\"";
}

constexpr std::string_view kPageBegins = "<svg xmlns=\"http://www.w3.org/2000/svg\"";
constexpr const char* kPageSize = " width=\"297mm\" height=\"210mm\"";

const char* word(Anchor anchor) {
    return anchor == Anchor::Start ? "start" : anchor == Anchor::Middle ? "middle" : "end";
}

} // namespace

Page::Page(const PrintJob& job, const std::string& name, std::size_t number_, std::size_t of) {
    out = std::string(kPageBegins) + kPageSize +
          " viewBox=\"0 0 297 210\" font-family=\"'Open Sans', sans-serif\">\n";
    text({kPageLeft_mm, 11.0}, job.say.text(job.title), {5.0, true});
    text({kPageRight_mm, 11.0},
         name + "  " + std::to_string(number_) + "/" + std::to_string(of),
         {4.2, false, Anchor::End});
    text({kPageLeft_mm, 204.0}, job.say("print/cautions"), {3.2});
    text({kPageRight_mm, 204.0}, job.say("product"), {3.2, false, Anchor::End});
}

void Page::text(Mm at, const std::string& words, const Letters& letters) {
    if (words.empty()) return;
    out += "<text font-size=\"" + number(letters.size_mm) + "\" text-anchor=\"" +
           word(letters.anchor) + "\"";
    if (letters.bold) out += " font-weight=\"600\"";
    // The capitals of Open Sans are 0.714 em high (its OS/2 table).
    if (letters.turn_deg != 0.0)
        out += " transform=\"translate(" + number(at.x) + " " + number(at.y) + ") rotate(" +
               number(letters.turn_deg) + ")\"" + attribute("y", 0.357 * letters.size_mm);
    else
        out += attribute("x", at.x) + attribute("y", at.y + 0.357 * letters.size_mm);
    out += ">" + escaped(words) + "</text>\n";
}

void Page::textWithin(Mm at, double width_mm, const std::string& words, const Letters& letters) {
    std::string fitting = words;
    while (fitting.size() > 1 && textWidth_em(fitting) * letters.size_mm > width_mm) {
        while (fitting.size() > 1 && (static_cast<unsigned char>(fitting.back()) & 0xC0u) == 0x80u)
            fitting.pop_back();
        fitting.pop_back();
    }
    text(at, fitting.size() < words.size() ? fitting + "\u2026" : fitting, letters);
}

void Page::line(Mm a, Mm b, double width_mm, const char* dashes) {
    path({a, b}, "#000", width_mm, dashes);
}

void Page::box(const MmBox& box, double radius_mm, double stroke_mm, const char* fill) {
    out += "<rect" + attribute("x", box.min.x) + attribute("y", box.min.y) +
           attribute("width", box.width()) + attribute("height", box.height());
    if (radius_mm > 0.0) out += attribute("rx", radius_mm);
    out += std::string(" fill=\"") + fill + "\"";
    if (stroke_mm > 0.0) out += " stroke=\"#000\"" + attribute("stroke-width", stroke_mm);
    out += "/>\n";
}

void Page::path(const std::vector<Mm>& points,
                const std::string& colour,
                double width_mm,
                const std::string& dashes) {
    out += "<polyline fill=\"none\" stroke-linejoin=\"round\" stroke=\"" + colour + "\"" +
           attribute("stroke-width", width_mm);
    if (!dashes.empty()) out += " stroke-dasharray=\"" + dashes + "\"";
    out += " points=\"";
    for (const Mm at : points)
        out += number(at.x) + "," + number(at.y) + " ";
    out += "\"/>\n";
}

std::string Page::finish() {
    return out + "</svg>\n";
}

std::string onOneSheet(const std::vector<std::string>& pages) {
    const std::string high = std::to_string(210 * pages.size());
    std::string out = std::string(kPageBegins) + " width=\"297mm\" height=\"" + high +
                      "mm\" viewBox=\"0 0 297 " + high + "\">\n";
    const std::size_t after = kPageBegins.size() + std::string_view(kPageSize).size();
    for (std::size_t i = 0; i < pages.size(); ++i)
        out += "<svg y=\"" + std::to_string(210 * i) + "\" width=\"297\" height=\"210\"" +
               pages[i].substr(after);
    return out + "</svg>\n";
}

std::size_t drawTable(Page& page, const Table& table, std::size_t first, double top, double foot) {
    double y = top + kTableRow_mm / 2, right = kPageLeft_mm;
    for (const Column& column : table.columns) {
        page.textWithin({right, y}, column.width_mm - 1.5, column.head, {3.4, true});
        right += column.width_mm;
    }
    page.line({kPageLeft_mm, top + kTableRow_mm}, {right, top + kTableRow_mm}, 0.5);
    std::size_t drawn = 0;
    for (std::size_t i = first; i < table.rows.size(); ++i) {
        y += kTableRow_mm;
        if (y + kTableRow_mm / 2 > foot) break;
        double x = kPageLeft_mm;
        for (std::size_t c = 0; c < table.columns.size() && c < table.rows[i].size(); ++c) {
            const Column& column = table.columns[c];
            if (table.rows[i][c] == "[]")
                page.box({{x + 1.0, y - 1.6}, {x + 4.2, y + 1.6}}, 0.3, 0.35);
            else
                page.textWithin(
                    {x, y}, column.width_mm - 1.5, table.rows[i][c], {3.4, column.bold});
            x += column.width_mm;
        }
        page.line({kPageLeft_mm, y + kTableRow_mm / 2}, {right, y + kTableRow_mm / 2}, 0.12);
        ++drawn;
    }
    return drawn;
}

std::vector<std::string>
tablePages(const PrintJob& job, const std::string& name, const Table& table) {
    const std::size_t each =
        static_cast<std::size_t>((kPageFoot_mm - kPageTop_mm) / kTableRow_mm) - 1;
    const std::size_t pages = table.rows.empty() ? 1 : (table.rows.size() + each - 1) / each;
    std::vector<std::string> out;
    for (std::size_t i = 0; i < pages; ++i) {
        Page page(job, name, i + 1, pages);
        const double foot = kPageTop_mm + (static_cast<double>(each) + 1.01) * kTableRow_mm;
        drawTable(page, table, i * each, kPageTop_mm, foot);
        out.push_back(page.finish());
    }
    return out;
}

SleeveInk sleeveInk(bench::Sleeve sleeve) {
    // Letters: IEC 60757. Colours and patterns: our own.
    static constexpr SleeveInk kInks[] = {{"#111", "", "BK"},
                                          {"#c62f26", "7 0.7", "RD"},
                                          {"#fff", "", "WH"},
                                          {"#868e91", "0.7 0.7", "GY"},
                                          {"#d97a12", "4 0.9", "OG"},
                                          {"#7a4aa8", "3 0.7 0.7 0.7", "VT"},
                                          {"#2c8a48", "2.2 0.9", "GN"},
                                          {"#e8c21e", "1.2 2.2", "YE"},
                                          {"#2b5fb4", "5 0.7 0.7 0.7", "BU"},
                                          {"#744722", "5 0.7 0.7 0.7 0.7 0.7", "BN"}};
    return kInks[static_cast<std::size_t>(sleeve)];
}

void drawSleeve(Page& page, const std::vector<Mm>& points, bench::Sleeve sleeve, double width_mm) {
    const SleeveInk ink = sleeveInk(sleeve);
    page.path(points, "#000", width_mm + 0.5);
    page.path(points, "#fff", width_mm);
    page.path(points, ink.colour, width_mm, ink.dashes);
}

std::string mm2Words(double area_m2) {
    return number(bench::area_mm2FromM2(area_m2));
}

std::string metresWords(double length_m) {
    char text[32];
    std::snprintf(text, sizeof text, "%.2f", length_m);
    return text;
}

std::string sleeveWords(const PrintJob& job, bench::Sleeve sleeve) {
    return job.say(std::string("sleeve/") + bench::word(sleeve)) + " " + sleeveInk(sleeve).letters;
}

std::string endWords(const PrintJob& job, bench::EndKind end) {
    return job.say(std::string("end/") + bench::word(end));
}

std::string placeWords(const PrintJob& job, const Spot& spot) {
    if (spot.terminal == "plus") return spot.ref + " +";
    if (spot.terminal == "minus") return spot.ref + " \u2212";
    for (const PlanPart& part : job.plan.parts)
        if (part.ref == spot.ref) return job.say.text(placeName(part.kind, spot));
    return job.say.text(bench::terminalPhrase(spot.ref, spot.terminal));
}

} // namespace loom::plan

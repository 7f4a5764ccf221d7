// SPDX-License-Identifier: MIT
#include "yard/strand.h"

#include "yard/vec.h"

#include <algorithm>

namespace loom::yard {

namespace {

constexpr double kLinkWish_m = 0.028;
constexpr int kFewestLinks = 8, kMostLinks = 24;

int linksFor(double length_m) {
    return std::min(std::max(static_cast<int>(length_m / kLinkWish_m + 0.5), kFewestLinks),
                    kMostLinks);
}

// The point so far along a line; walks on from where it was asked last.
struct Walk {
    const std::vector<Point>& line;
    std::size_t next = 1;
    double done_m = 0.0;

    Point at(double along_m) {
        while (next + 1 < line.size() && done_m + span() < along_m) {
            done_m += span();
            ++next;
        }
        const double length = span();
        const double share =
            length > 0.0 ? std::min(std::max((along_m - done_m) / length, 0.0), 1.0) : 0.0;
        return line[next - 1] + share * (line[next] - line[next - 1]);
    }

    double span() const { return apart_m(line[next - 1], line[next]); }
};

double lengthOf(const std::vector<Point>& line) {
    double sum = 0.0;
    for (std::size_t i = 1; i < line.size(); ++i)
        sum += apart_m(line[i - 1], line[i]);
    return sum;
}

} // namespace

double Strand::length_m() const {
    double sum = 0.0;
    for (const double link : links_m)
        sum += link;
    return sum;
}

Strand strandAlong(const std::vector<Point>& line, double first_m, double last_m) {
    Strand strand;
    const double whole_m = lengthOf(line);
    const double stiff_m = first_m + last_m;
    const double scale = stiff_m > 0.6 * whole_m ? 0.6 * whole_m / stiff_m : 1.0;
    first_m *= scale;
    last_m *= scale;
    const int links = linksFor(whole_m);
    const double each_m = (whole_m - first_m - last_m) / (links - 2);
    Walk walk{line};
    for (int i = 0; i <= links; ++i) {
        const double along = i == 0 ? 0.0 : i == links ? whole_m : first_m + each_m * (i - 1);
        strand.points_m.push_back(walk.at(along));
    }
    // A chord is a little shorter than its arc: the links are as long as the chords.
    for (int i = 0; i < links; ++i)
        strand.links_m.push_back(
            std::max(1e-4,
                     apart_m(strand.points_m[static_cast<std::size_t>(i)],
                             strand.points_m[static_cast<std::size_t>(i) + 1])));
    return strand;
}

void keepChords(Strand& strand) {
    for (std::size_t i = 0; i < strand.links_m.size(); ++i)
        strand.links_m[i] = std::max(1e-3, apart_m(strand.points_m[i], strand.points_m[i + 1]));
}

bool renewLinks(Strand& strand) {
    const int now = static_cast<int>(strand.links_m.size());
    const int wish = linksFor(strand.length_m());
    if (std::abs(wish - now) * 4 < now) return false;
    strand = strandAlong(strand.points_m, strand.links_m.front(), strand.links_m.back());
    return true;
}

} // namespace loom::yard

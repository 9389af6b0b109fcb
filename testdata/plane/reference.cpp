// What pairs of regions have in common, by exact polygon sets.
//
//   g++ -O1 -o reference reference.cpp -lgmp -lmpfr
//   ./reference < cases
//
// Needs libcgal-dev. A case is lines of words, coordinates in whole nanometers:
//
//   part G                   another part of region 0 or 1
//   ring X Y X Y X Y ...     its rim, then its holes
//   point X Y                to be located in region 0
//   end
//
// For each it prints a line: the areas of the intersection, of the first less the
// second and of the union in square nanometers, then for each point 1 inside, 0 on
// the border and -1 outside. Boolean operations are regularized and run on an exact
// kernel (CGAL User Manual, 2D Regularized Boolean Set-Operations).
#include <CGAL/Boolean_set_operations_2.h>
#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/Polygon_set_2.h>

#include <cstdio>
#include <iostream>
#include <iterator>
#include <sstream>
#include <string>
#include <vector>

typedef CGAL::Exact_predicates_exact_constructions_kernel K;
typedef CGAL::Polygon_2<K> Polygon;
typedef CGAL::Polygon_with_holes_2<K> Holed;
typedef CGAL::Polygon_set_2<K> Set;

static double area(const Set& s) {
  std::vector<Holed> parts;
  s.polygons_with_holes(std::back_inserter(parts));
  K::FT sum = 0;
  for (const Holed& h : parts) {
    sum += h.outer_boundary().area();
    for (auto i = h.holes_begin(); i != h.holes_end(); ++i) sum += i->area();
  }
  return CGAL::to_double(CGAL::exact(sum));
}

int main() {
  std::vector<std::vector<Polygon>> parts[2];
  std::vector<K::Point_2> points;
  std::string line;
  while (std::getline(std::cin, line)) {
    std::istringstream in(line);
    std::string word;
    in >> word;
    static int of = 0;
    if (word == "part") {
      in >> of;
      parts[of].emplace_back();
    } else if (word == "ring") {
      Polygon p;
      for (double x, y; in >> x >> y;) p.push_back(K::Point_2(x, y));
      if (p.orientation() == CGAL::CLOCKWISE) p.reverse_orientation();
      parts[of].back().push_back(p);
    } else if (word == "point") {
      double x, y;
      in >> x >> y;
      points.push_back(K::Point_2(x, y));
    } else if (word == "end") {
      Set s[2];
      for (int k = 0; k < 2; k++)
        for (const auto& rings : parts[k]) {
          Set one(rings[0]);
          for (size_t i = 1; i < rings.size(); i++) one.difference(rings[i]);
          s[k].join(one);
        }
      Set both = s[0], less = s[0], either = s[0];
      both.intersection(s[1]);
      less.difference(s[1]);
      either.join(s[1]);
      std::printf("%.17g %.17g %.17g", area(both), area(less), area(either));
      for (const auto& p : points) std::printf(" %d", int(s[0].oriented_side(p)));
      std::printf("\n");
      parts[0].clear();
      parts[1].clear();
      points.clear();
    }
  }
}

// What regions have in common, and the volumes of plans, by exact polygon sets.
//
//   g++ -O1 -o reference reference.cpp -lgmp -lmpfr
//   ./reference < ../../solids/plans.txt > ../../solids/volumes.txt
//
// Needs libcgal-dev. It reads plans, in the format of geometry/solid/corpus_test.go,
// and pairs of regions. A pair is lines of words, coordinates in whole nanometers:
//
//   part G                   another part of region 0 or 1
//   ring X Y X Y X Y ...     its rim, then its holes
//   point X Y                to be located in region 0
//   end
//
// and surfaces over a region, whose rings are breaklines, which each shot gives a height:
//
//   breaks X Y X Y X Y ...
//   shot X Y Z
//   end
//
// For these it prints the integral of the height over the constrained Delaunay
// triangulation of the shots (CGAL User Manual, 2D Triangulations), in meters.
//
// For each pair it prints a line: the areas of the intersection, of the first less the
// second and of the union in square nanometers, then for each point 1 inside, 0 on
// the border and -1 outside.
//
// For each plan it prints its volume in cubic meters. It shares nothing with the Go
// code but the rule: a haunch
// is the strip swept inward from its edge, square at outside corners and where
// the section changes, run on to the bisector at an inside corner of two
// haunched edges, counted only where it is connected to its edge on the slab;
// at every point the deepest of all thickenings counts.
//
// Boolean operations are regularized and run on an exact kernel, so no face is
// lost (CGAL User Manual, 2D Regularized Boolean Set-Operations). The corners of
// strips and the planes of depth come from doubles: about 1e-6 nm.
#include <CGAL/Boolean_set_operations_2.h>
#include <CGAL/Constrained_Delaunay_triangulation_2.h>
#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Polygon_set_2.h>

#include <chrono>
#include <cmath>
#include <cstdio>
#include <iostream>
#include <iterator>
#include <map>
#include <sstream>
#include <string>
#include <vector>

typedef CGAL::Exact_predicates_exact_constructions_kernel K;
typedef K::Point_2 Point;
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

// Regions is a pair of regions with points.
struct Regions {
  std::vector<std::vector<Polygon>> parts[2];
  std::vector<Point> points;
  int of = 0;

  // take reads a line; false for one of a plan.
  bool take(const std::string& word, std::istream& in) {
    if (word == "part") {
      in >> of;
      parts[of].emplace_back();
    } else if (word == "ring") {
      Polygon p;
      for (double x, y; in >> x >> y;) p.push_back(Point(x, y));
      if (p.orientation() == CGAL::CLOCKWISE) p.reverse_orientation();
      parts[of].back().push_back(p);
    } else if (word == "point") {
      double x, y;
      in >> x >> y;
      points.push_back(Point(x, y));
    } else {
      return false;
    }
    return true;
  }

  void print() const {
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
  }
};

// Surface is a region with shots on it.
struct Surface {
  typedef CGAL::Exact_predicates_inexact_constructions_kernel N;
  typedef CGAL::Constrained_Delaunay_triangulation_2<N> CDT;
  CDT cdt;
  std::vector<std::vector<N::Point_2>> rings;
  std::map<N::Point_2, double> height;

  bool take(const std::string& word, std::istream& in) {
    if (word == "breaks") {
      rings.emplace_back();
      for (double x, y; in >> x >> y;) rings.back().push_back(N::Point_2(x, y));
      for (size_t i = 0; i < rings.back().size(); i++)
        cdt.insert_constraint(rings.back()[i], rings.back()[(i + 1) % rings.back().size()]);
    } else if (word == "shot") {
      double x, y, z;
      in >> x >> y >> z;
      cdt.insert(N::Point_2(x, y));
      height[N::Point_2(x, y)] = z;
    } else {
      return false;
    }
    return true;
  }

  bool holds(double x, double y) const {
    bool in = false;
    for (const auto& r : rings)
      for (size_t i = 0; i < r.size(); i++) {
        const auto &a = r[i], &b = r[(i + 1) % r.size()];
        if ((a.y() > y) != (b.y() > y) && x < a.x() + (b.x() - a.x()) * (y - a.y()) / (b.y() - a.y())) in = !in;
      }
    return in;
  }

  void print() const {
    double sum = 0;
    for (auto f = cdt.finite_faces_begin(); f != cdt.finite_faces_end(); ++f) {
      N::Point_2 p[3];
      double x = 0, y = 0, z = 0;
      for (int i = 0; i < 3; i++) {
        p[i] = f->vertex(i)->point();
        x += p[i].x() / 3;
        y += p[i].y() / 3;
      }
      if (!holds(x, y)) continue;
      for (int i = 0; i < 3; i++) z += height.at(p[i]) / 3;
      sum += z * CGAL::area(p[0], p[1], p[2]) * 1e-18;
    }
    std::printf("%.17g\n", sum);
  }
};

struct Vec { double x, y; };
static Vec operator+(Vec a, Vec b) { return {a.x + b.x, a.y + b.y}; }
static Vec operator-(Vec a, Vec b) { return {a.x - b.x, a.y - b.y}; }
static Vec operator*(Vec a, double f) { return {a.x * f, a.y * f}; }
static double dot(Vec a, Vec b) { return a.x * b.x + a.y * b.y; }
static Vec left(Vec a) { return {-a.y, a.x}; }
static Vec unit(Vec a) { return a * (1 / std::hypot(a.x, a.y)); }

struct Station { double v, d; };
typedef std::vector<Station> Section;
struct Span { double from, to; const Section* s; };
struct Door { double from, width; std::string section; };
struct Edge { Vec at; std::string section; std::vector<Door> doors; };
struct Pad { Vec c; double w, l, turn, d, t; };
struct Strip { double b, d, t; std::vector<Vec> path; };
struct Plan {
  double field = 0;
  std::map<std::string, Section> sections;
  std::vector<std::vector<Edge>> loops;
  std::vector<Pad> pads;
  std::vector<Strip> strips;
};

struct Plane { double c, gx, gy; };
struct Piece { Set where; CGAL::Bbox_2 box; Plane f; int feature; };

static Polygon quad(const std::vector<Vec>& ps) {
  Polygon p;
  for (Vec v : ps) {
    Point q(v.x, v.y);
    if (p.size() == 0 || q != p[p.size() - 1]) p.push_back(q);
  }
  while (p.size() > 1 && p[0] == p[p.size() - 1]) p.erase(p.vertices_end() - 1);
  if (p.size() >= 3 && p.is_simple() && p.orientation() == CGAL::CLOCKWISE) p.reverse_orientation();
  return p;
}

static bool usable(const Polygon& p) { return p.size() >= 3 && p.is_simple() && p.area() != 0; }

// real gives a coordinate to the last bit: plain to_double of a lazy number may
// be off by 1e-5 of it.
static double real(const K::FT& x) { return CGAL::to_double(CGAL::exact(x)); }

static double integrate(const Polygon& p, Plane f) {
  Vec o{real(p[0].x()), real(p[0].y())};
  double sum = 0, f0 = f.c + f.gx * o.x + f.gy * o.y;
  for (size_t i = 2; i < p.size(); i++) {
    Vec a = Vec{real(p[i - 1].x()), real(p[i - 1].y())} - o;
    Vec b = Vec{real(p[i].x()), real(p[i].y())} - o;
    double fa = f0 + f.gx * a.x + f.gy * a.y, fb = f0 + f.gx * b.x + f.gy * b.y;
    sum += (a.x * b.y - a.y * b.x) * (f0 + fa + fb) / 6;
  }
  return sum;
}

static double integrate(const Set& s, Plane f) {
  std::vector<Holed> parts;
  s.polygons_with_holes(std::back_inserter(parts));
  double sum = 0;
  for (const Holed& h : parts) {
    sum += integrate(h.outer_boundary(), f);
    for (auto i = h.holes_begin(); i != h.holes_end(); ++i) sum += integrate(*i, f);
  }
  return sum;
}

struct Solver {
  const Plan& plan;
  Set region;
  std::vector<Piece> pieces;
  int features = 0;

  // band adds the pieces of a strip along u from o between from and to.
  void band(Vec o, Vec u, double from, double to, double k0, double k1, const Section& s, bool attached) {
    Vec n = left(u);
    auto at = [&](double a, double v) { return o + u * a + n * v; };
    auto strip = [&](double v0, double v1) {
      return quad({at(from - k0 * v0, v0), at(to + k1 * v0, v0), at(to + k1 * v1, v1), at(from - k0 * v1, v1)});
    };
    Polygon whole = strip(0, s.back().v);
    if (!usable(whole)) return;
    Set on = region;
    on.intersection(whole);
    if (attached) {
      std::vector<Holed> parts;
      on.polygons_with_holes(std::back_inserter(parts));
      Polygon base = quad({at(from, 0), at(to, 0), at(to, 10), at(from, 10)});
      on.clear();
      for (const Holed& h : parts)
        if (usable(base) && CGAL::do_intersect(base, h)) on.join(h);
    }
    for (size_t i = 1; i < s.size(); i++) {
      if (s[i].v <= s[i - 1].v) continue;
      Polygon q = strip(s[i - 1].v, s[i].v);
      if (!usable(q)) continue;
      Set part = on;
      part.intersection(q);
      double m = (s[i].d - s[i - 1].d) / (s[i].v - s[i - 1].v);
      Plane f{s[i - 1].d - m * (s[i - 1].v + dot(n, o)), m * n.x, m * n.y};
      if (!part.is_empty()) pieces.push_back({part, q.bbox(), f, features});
    }
  }

  static double miter(Vec u, Vec n, Vec w) {
    // The tangent of half the angle by which the other edge turns away.
    double sin = dot(n, w), cos = dot(u, w);
    return sin >= 0 ? 0 : std::tan(std::atan2(-sin, -cos) / 2);
  }

  const Section* section(const std::string& name) {
    auto i = plan.sections.find(name);
    if (i == plan.sections.end()) return nullptr;
    for (Station s : i->second)
      if (s.d > plan.field) return &i->second;
    return nullptr;
  }

  std::vector<Span> spans(const std::vector<Edge>& loop, size_t i) {
    double length = 0;
    Vec e = loop[(i + 1) % loop.size()].at - loop[i].at;
    length = std::hypot(e.x, e.y);
    std::vector<Span> out;
    double at = 0;
    for (const Door& d : loop[i].doors) { // at most one in this corpus
      if (d.from > at) out.push_back({at, d.from, section(loop[i].section)});
      out.push_back({d.from, d.from + d.width, section(d.section == "-" ? loop[i].section : d.section)});
      at = d.from + d.width;
    }
    if (at < length || out.empty()) out.push_back({at, length, section(loop[i].section)});
    out.back().to = length;
    return out;
  }

  double solve() {
    Set outer;
    for (size_t l = 0; l < plan.loops.size(); l++) {
      Polygon p;
      for (const Edge& e : plan.loops[l]) p.push_back(Point(e.at.x, e.at.y));
      if (p.orientation() == CGAL::CLOCKWISE) p.reverse_orientation();
      if (l == 0) region.insert(p); else region.difference(p);
    }
    for (const auto& loop : plan.loops) {
      size_t n = loop.size();
      for (size_t i = 0; i < n; i++) {
        Vec prev = loop[(i + n - 1) % n].at, a = loop[i].at, b = loop[(i + 1) % n].at, next = loop[(i + 2) % n].at;
        Vec u = unit(b - a);
        auto ss = spans(loop, i);
        bool before = spans(loop, (i + n - 1) % n).back().s, after = spans(loop, (i + 1) % n).front().s;
        for (size_t k = 0; k < ss.size(); k++) {
          if (!ss[k].s || ss[k].to <= ss[k].from) continue;
          double k0 = k == 0 && before ? miter(u, left(u), prev - a) : 0;
          double k1 = k + 1 == ss.size() && after ? miter(u * -1, left(u), next - b) : 0;
          band(a, u, ss[k].from, ss[k].to, k0, k1, *ss[k].s, true);
          features++;
        }
      }
    }
    for (const Pad& p : plan.pads) pad(p);
    for (const Strip& s : plan.strips) strip(s);

    double volume = integrate(region, {plan.field, 0, 0});
    for (size_t i = 0; i < pieces.size(); i++) {
      Set left = pieces[i].where;
      for (size_t j = 0; j < pieces.size() && !left.is_empty(); j++)
        if (pieces[i].feature != pieces[j].feature && CGAL::do_overlap(pieces[i].box, pieces[j].box)) lose(left, i, j);
      Plane f = pieces[i].f;
      f.c -= plan.field;
      volume += integrate(left, f);
    }
    return volume * 1e-27;
  }

  // lose takes out of left what piece j holds and is deeper than piece i.
  void lose(Set& left, size_t i, size_t j) {
    Plane a = pieces[i].f, b = pieces[j].f;
    K::FT c = K::FT(b.c) - K::FT(a.c), gx = K::FT(b.gx) - K::FT(a.gx), gy = K::FT(b.gy) - K::FT(a.gy);
    Set out = pieces[j].where;
    if (gx == 0 && gy == 0) {
      if (c < 0 || (c == 0 && i < j)) return;
    } else {
      // The half plane where j is deeper, cut to a box round both.
      CGAL::Bbox_2 box = pieces[i].box + pieces[j].box;
      std::vector<Point> ps{{box.xmin() - 1, box.ymin() - 1}, {box.xmax() + 1, box.ymin() - 1}, {box.xmax() + 1, box.ymax() + 1}, {box.xmin() - 1, box.ymax() + 1}};
      auto g = [&](const Point& p) { return K::FT(c + gx * p.x() + gy * p.y()); };
      Polygon half;
      for (size_t k = 0; k < 4; k++) {
        const Point &p = ps[k], &q = ps[(k + 1) % 4];
        K::FT fp = g(p), fq = g(q);
        if (fp >= 0) half.push_back(p);
        if ((fp < 0) != (fq < 0) && fp != 0 && fq != 0) {
          K::FT t = fp / (fp - fq);
          half.push_back(Point(p.x() + (q.x() - p.x()) * t, p.y() + (q.y() - p.y()) * t));
        }
      }
      if (half.size() < 3) return;
      out.intersection(half);
    }
    if (!out.is_empty()) left.difference(out);
  }

  void pad(const Pad& p) {
    if (p.d <= plan.field) return;
    double a = p.turn * M_PI / 180;
    Vec x{std::cos(a), std::sin(a)}, y = left(x);
    // A frustum: one bottom and four sides between it and the rim above.
    auto rim = [&](double g) {
      double w = p.w / 2 + g, l = p.l / 2 + g;
      return std::vector<Vec>{p.c - x * w - y * l, p.c + x * w - y * l, p.c + x * w + y * l, p.c - x * w + y * l};
    };
    auto in = rim(0), out = rim(p.t);
    auto put = [&](const Polygon& q, Plane f) {
      if (!usable(q)) return;
      Set s = region;
      s.intersection(q);
      if (!s.is_empty()) pieces.push_back({s, q.bbox(), f, features});
    };
    put(quad(in), {p.d, 0, 0});
    if (p.t > 0)
      for (int k = 0; k < 4; k++) {
        Vec n = unit(left(in[(k + 1) % 4] - in[k])) * -1;
        double m = (plan.field - p.d) / p.t;
        put(quad({in[k], in[(k + 1) % 4], out[(k + 1) % 4], out[k]}), {p.d - m * dot(n, in[k]), m * n.x, m * n.y});
      }
    features++;
  }

  void strip(const Strip& s) {
    if (s.d <= plan.field) return;
    Section half{{0, s.d}, {s.b / 2, s.d}, {s.b / 2 + s.t, plan.field}};
    for (int way = 0; way < 2; way++) {
      std::vector<Vec> p = s.path;
      if (way) std::reverse(p.begin(), p.end());
      for (size_t k = 1; k < p.size(); k++) {
        Vec u = unit(p[k] - p[k - 1]);
        double len = std::hypot(p[k].x - p[k - 1].x, p[k].y - p[k - 1].y);
        double k0 = k >= 2 ? miter(u, left(u), p[k - 2] - p[k - 1]) : 0;
        double k1 = k + 1 < p.size() ? miter(u * -1, left(u), p[k + 1] - p[k]) : 0;
        band(p[k - 1], u, 0, len, k0, k1, half, true);
        features++;
      }
    }
  }
};

int main(int argc, char** argv) {
  Plan p;
  std::string line;
  int number = 0;
  Regions pair;
  Surface surface;
  auto start = std::chrono::steady_clock::now();
  double busy = 0;
  while (std::getline(std::cin, line)) {
    std::istringstream in(line);
    std::string word;
    if (!(in >> word) || word[0] == '#') continue;
    if (pair.take(word, in) || surface.take(word, in)) continue;
    if (word == "plan") { p = Plan(); in >> p.field; }
    else if (word == "section") {
      std::string name; in >> name;
      for (double v, d; in >> v >> d;) p.sections[name].push_back({v, d});
    } else if (word == "loop") p.loops.emplace_back();
    else if (word == "edge") {
      Edge e; in >> e.at.x >> e.at.y >> e.section;
      for (Door d; in >> d.from >> d.width >> d.section;) e.doors.push_back(d);
      p.loops.back().push_back(e);
    } else if (word == "pad") { Pad d; in >> d.c.x >> d.c.y >> d.w >> d.l >> d.turn >> d.d >> d.t; p.pads.push_back(d); }
    else if (word == "strip") {
      Strip s; in >> s.b >> s.d >> s.t;
      for (Vec v; in >> v.x >> v.y;) s.path.push_back(v);
      p.strips.push_back(s);
    } else if (word == "end" && !surface.rings.empty()) {
      surface.print();
      surface = Surface();
    } else if (word == "end" && p.loops.empty()) {
      pair.print();
      pair = Regions();
    } else if (word == "end") {
      if (number == 0) std::printf("# m3 by reference.cpp, one line a plan\n");
      auto t0 = std::chrono::steady_clock::now();
      Solver s{p};
      double v = s.solve();
      busy += std::chrono::duration<double>(std::chrono::steady_clock::now() - t0).count();
      std::printf("%.17g\n", v);
      number++;
      p = Plan();
    }
  }
  std::fprintf(stderr, "%d plans, %.6f ms each\n", number, 1000 * busy / std::max(number, 1));
}

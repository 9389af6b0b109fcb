package ground

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plane"
	"haunchbook.example/geometry/solid"
)

// Shot is a place of the ground that was measured.
type Shot struct {
	At  geometry.Point
	Off geometry.Length // how far the ground lies above what the plan has there; below it, negative
}

// Tolerances of the thickness of a slab on ground, downward; there is none upward (ACI
// 117-10, 4.5.4).
const (
	ThinAverage = 3 * geometry.Inch / 8
	ThinSingle  = 3 * geometry.Inch / 4
)

// Slab is the ground under a slab as shots have it.
type Slab struct {
	Zones    []ZoneSurface
	Need     Guess   // m³: concrete down to the ground, where it is shot, and to the plan elsewhere
	Plan     float64 // m³ by the plan
	Area     float64 // m²
	Unshot   float64 // m² of zones of which nothing was shot
	Guessed  float64 // m³ of the plan's concrete over these
	Mean     float64 // m; how far the ground lies above the plan, on average, where it is shot
	Cut      float64 // m³ of ground above the plan
	Fill     float64 // m³ missing below the plan
	ThinArea float64 // m² where the slab will be thinner than the plan by more than ThinAverage
	FatArea  float64 // m² where it will be thicker by more than that
	Stray    int     // shots that lie on no zone
}

// ZoneSurface is the ground of a zone: how far it lies above the plan at the points of a
// mesh, in meters, a plane over each triangle. A slope on which nothing was shot goes
// straight from the field to its bottom.
type ZoneSurface struct {
	Zone
	Mesh  Mesh
	Off   []float64
	Shots int
	Known bool // some of it was shot, or what it lies between
}

const (
	nodesOfZone = 300                       // with fewer, their means say less of smooth ground than its shots do
	stepAlong   = 500 * geometry.Millimeter // of the points along the sides of a zone without shots
)

// Of gives the ground under a slab, whose plan is region and whose field is so thick.
func Of(s *solid.Solid, region plane.Region, thick geometry.Length, shots []Shot) Slab {
	out := Slab{Plan: s.Volume, Area: s.Area}
	zones := Zones(s, region)
	if len(zones) == 0 {
		out.Need = Guess{s.Volume, 0}
		out.Stray = len(shots)
		return out
	}
	lo, _ := region.Bounds()
	frame := plane.NewFrame(lo, 0)
	down := slopesOf(s, thick, frame)

	// Each shot is of one zone, and one of two at a place counts by their mean.
	own := shotsOf(zones, shots, frame, &out.Stray)

	// What of the area hangs on which class's shots.
	var over [4][]node
	for k, z := range zones {
		points := own[k].points
		if len(points) == 0 {
			points = along(z.Region, stepAlong)
		}
		m := Triangulate(z.Region, points)
		out.Zones = append(out.Zones, ZoneSurface{Zone: z, Mesh: m, Shots: len(own[k].z)})
		ns := m.spread(frame, nodesOfZone)
		for _, n := range ns {
			switch share, bottom, ok := down.at(n.at); {
			case z.Class != Slope || len(own[k].z) > 0 || !ok:
				over[z.Class] = append(over[z.Class], n)
			default:
				over[Field] = append(over[Field], node{n.at, n.m2 * (1 - share)})
				over[bottom] = append(over[bottom], node{n.at, n.m2 * share})
			}
		}
	}

	var fields [4]*field
	for c := range over {
		over[c] = gather(over[c], nodesOfZone)
	}
	var shot []sample
	var of []Class
	known := 0.0 // m²
	for k, z := range zones {
		if len(own[k].z) > 0 && len(over[z.Class]) > 0 {
			shot, of = append(shot, sample{own[k].at, own[k].z, over[z.Class]}), append(of, z.Class)
			known += areaOf(over[z.Class])
		}
	}
	off := Guess{}
	if len(shot) > 0 {
		var surfaces []*field
		off, surfaces = krige(shot)
		for k, c := range of {
			fields[c] = surfaces[k]
		}
	}
	out.Need = Guess{s.Volume - off.Mean, off.Error}
	if known > 0 {
		out.Mean = off.Mean / known
	}
	for c, ns := range over {
		if fields[c] == nil {
			for _, n := range ns {
				d, _ := s.DepthAt(frame.Out(n.at))
				out.Unshot += n.m2
				out.Guessed += n.m2 * d.Meters()
			}
		}
	}
	for k := range out.Zones {
		out.lay(k, fields, own[k], down, frame)
	}
	return out
}

// lay gives the surface of a zone its heights.
func (s *Slab) lay(k int, fields [4]*field, own measured, down *slopes, frame plane.Frame) {
	z := &s.Zones[k]
	at := func(c Class, v plane.Vec) float64 {
		if fields[c] == nil {
			return 0
		}
		return fields[c].value(v)
	}
	z.Known = fields[z.Class] != nil
	z.Off = make([]float64, len(z.Mesh.Points))
	for i, p := range z.Mesh.Points {
		v := frame.In(p)
		if shot, ok := own.off[p]; ok {
			z.Off[i] = shot
		} else if share, bottom, ok := down.at(v); ok && z.Class == Slope && !z.Known {
			z.Off[i] = (1-share)*at(Field, v) + share*at(bottom, v)
		} else {
			z.Off[i] = at(z.Class, v)
		}
	}
	if z.Class == Slope && !z.Known {
		z.Known = fields[Field] != nil || fields[Trench] != nil || fields[Pad] != nil
	}
	if !z.Known {
		return
	}
	cut, _ := z.Mesh.Beyond(z.Off, 0, false)
	fill, _ := z.Mesh.Beyond(z.Off, 0, true)
	_, thin := z.Mesh.Beyond(z.Off, ThinAverage.Meters(), false)
	_, fat := z.Mesh.Beyond(z.Off, -ThinAverage.Meters(), true)
	s.Cut, s.Fill, s.ThinArea, s.FatArea = s.Cut+cut, s.Fill+fill, s.ThinArea+thin, s.FatArea+fat
}

// measured are the shots on a zone, each place once.
type measured struct {
	points []geometry.Point
	at     []plane.Vec
	z      []float64 // m
	off    map[geometry.Point]float64
}

func shotsOf(zones []Zone, shots []Shot, frame plane.Frame, stray *int) []measured {
	own := make([]measured, len(zones))
	for k := range zones {
		own[k].off = map[geometry.Point]float64{}
	}
	times := map[geometry.Point]float64{}
	for _, s := range shots {
		k := zoneAt(zones, s.At)
		if k < 0 {
			*stray++
			continue
		}
		o := &own[k]
		if times[s.At]++; times[s.At] == 1 {
			o.points, o.at = append(o.points, s.At), append(o.at, frame.In(s.At))
		}
		o.off[s.At] += (s.Off.Meters() - o.off[s.At]) / times[s.At]
	}
	for k := range own {
		for _, p := range own[k].points {
			own[k].z = append(own[k].z, own[k].off[p])
		}
	}
	return own
}

// zoneAt gives the zone that a place lies on, a flat one where it lies on the border of
// one; -1 for none.
func zoneAt(zones []Zone, p geometry.Point) int {
	for k, z := range zones {
		if z.Region.Contains(p) {
			return k
		}
	}
	return -1
}

// along gives points on the sides of a region, no farther apart than a step.
func along(g plane.Region, step geometry.Length) []geometry.Point {
	var out []geometry.Point
	for _, r := range g {
		for i, a := range r {
			b := r[(i+1)%len(r)]
			n := geometry.Distance(a, b)/step + 1
			for k := geometry.Length(1); k < n; k++ {
				out = append(out, geometry.Along(a, b, geometry.Distance(a, b)*k/n))
			}
		}
	}
	return out
}

func areaOf(ns []node) float64 {
	sum := 0.0
	for _, n := range ns {
		sum += n.m2
	}
	return sum
}

// gather makes fewer nodes of many: those in a square become one in their middle.
func gather(ns []node, most int) []node {
	for size := 0.05; len(ns) > most; size *= 1.3 {
		squares := map[[2]int]int{}
		var out []node
		for _, n := range ns {
			key := [2]int{int(math.Floor(n.at.X / size)), int(math.Floor(n.at.Y / size))}
			k, ok := squares[key]
			if !ok {
				k, squares[key] = len(out), len(out)
				out = append(out, node{})
			}
			o := &out[k]
			if sum := o.m2 + n.m2; sum > 0 {
				o.at, o.m2 = plane.Lerp(o.at, n.at, n.m2/sum), sum
			}
		}
		ns = out
	}
	return ns
}

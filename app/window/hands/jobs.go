package hands

import (
	"os"
	"testing"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Demo gives the sample job.
func Demo(t testing.TB) job.Job {
	t.Helper()
	j, err := shelf.Demo()
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// Twice is the sample job with its slab a second time beside it.
func Twice(t testing.TB) job.Job {
	t.Helper()
	j := Demo(t)
	by := geometry.Point{X: 60 * geometry.Foot}
	second := j.Slabs[0].Clone()
	for i := range second.Outline {
		second.Outline[i].At = second.Outline[i].At.Add(by)
	}
	for i, f := range second.Top.Falls {
		second.Top.Falls[i].From, second.Top.Falls[i].To = f.From.Add(by), f.To.Add(by)
	}
	j.Slabs = append(j.Slabs, second)
	j.Slabs[0].Name, j.Slabs[1].Name = "Shop", "Workshop"
	return j
}

// Shop is a job of one framed slab of 24 by 20 ft.
func Shop() job.Job {
	const ft = geometry.Foot
	j := shelf.Blank(geometry.FeetInches)
	j.Slabs[0].Sections = []plan.Section{{Name: "Edge 12", Depth: ft, Bottom: ft, Taper: ft / 2}}
	j.Slabs[0] = j.Slabs[0].WithOutline(plan.Like(Rectangle(0, 0, 24*ft, 20*ft), plan.Edge{Section: "Edge 12", Wall: "2x6"}))
	return j
}

// WithApron is Shop with a second slab at its right, of 10 by 8 ft.
func WithApron() job.Job {
	const ft = geometry.Foot
	j := Shop()
	apron := plan.Plan{Name: "Apron", Field: ft / 2}
	j.Slabs = append(j.Slabs, apron.WithOutline(plan.Like(Rectangle(28*ft, 2*ft, 10*ft, 8*ft), plan.Edge{})))
	return j
}

// Rectangle has its lower left corner at x and y.
func Rectangle(x, y, w, h geometry.Length) geometry.Ring {
	return geometry.Ring{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}
}

// FillDisk writes a file until there is no more room.
func FillDisk(t testing.TB, path string) {
	t.Helper()
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	for err == nil {
		_, err = f.Write(make([]byte, 4096))
	}
	_ = f.Close() // it is full
}

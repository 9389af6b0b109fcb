package assets_test

import (
	"bytes"
	"image/png"
	"testing"

	"haunchbook.example/app/job"
	"haunchbook.example/assets"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

func demo(t *testing.T) job.Job {
	t.Helper()
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		t.Fatalf("the demo job: %v", err)
	}
	return j
}

func TestDemoRoundTrips(t *testing.T) {
	j := demo(t)
	once := j.Encode()
	again, err := job.Read(bytes.NewReader(once))
	if err != nil {
		t.Fatalf("what Encode wrote: %v\n%s", err, once)
	}
	if twice := again.Encode(); !bytes.Equal(once, twice) {
		t.Errorf("written, read and written again, the demo job differs:\n%s\n%s", once, twice)
	}
}

// The demo job must show what the program is for.
func TestDemoShowsTheJob(t *testing.T) {
	p := demo(t).Slabs[0]
	kinds := map[plan.DoorKind]int{}
	var joints, walls, lips, inside int
	corners := p.Outline.Corners()
	for i, e := range p.Outline {
		if e.Joint {
			joints++
		}
		if e.Wall == "2x6" {
			walls++
		}
		for _, d := range e.Doors {
			kinds[d.Kind]++
			if d.Lip.Drop > 0 && d.Section != "" {
				lips++
			}
		}
		n := len(corners)
		if geometry.Orientation(corners[(i+n-1)%n], corners[i], corners[(i+1)%n]) < 0 {
			inside++
		}
	}
	if joints != 1 || walls != 5 || lips != 1 || inside != 1 || kinds[plan.Overhead] != 1 || kinds[plan.Walk] != 1 {
		t.Errorf("joints %d, walls %d, lips %d, inside corners %d, doors %v; want 1, 5, 1, 1 and one of each kind",
			joints, walls, lips, inside, kinds)
	}
	// 22.5 ft by 10 ft and 36 ft by 18 ft.
	if got, want := corners.Area(), (22.5*10+36*18)*0.3048*0.3048; got < want-1e-9 || got > want+1e-9 {
		t.Errorf("area %v m², want %v", got, want)
	}
}

func TestIconIsSquare(t *testing.T) {
	m, err := png.Decode(bytes.NewReader(assets.Icon()))
	if err != nil {
		t.Fatal(err)
	}
	if s := m.Bounds().Size(); s.X != 512 || s.Y != 512 {
		t.Errorf("the icon is %v, want 512 by 512", s)
	}
}

package sheet

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
	"time"

	"haunchbook/app/job"
	"haunchbook/app/takeoff"
	"haunchbook/assets"
	"haunchbook/geometry"
)

const (
	in = geometry.Inch
	ft = geometry.Foot
)

var fixedDate = time.Date(2024, 4, 12, 0, 0, 0, 0, time.UTC)

func demoJob(t testing.TB) job.Job {
	t.Helper()
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// taken gives the takeoff of a job.
func taken(t testing.TB, j job.Job) takeoff.Takeoff {
	t.Helper()
	out, err := takeoff.Of(j.Slabs, j.Spec, j.Units)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// show writes a document where HAUNCH_SHOW says, to look at.
func show(t testing.TB, name string, data []byte) {
	if dir := os.Getenv("HAUNCH_SHOW"); dir != "" {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o666); err != nil {
			t.Fatal(err)
		}
	}
}

func TestDemo(t *testing.T) {
	j := demoJob(t)
	var b bytes.Buffer
	if err := Write(&b, j, taken(t, j), Options{Date: fixedDate}); err != nil {
		t.Fatal(err)
	}
	show(t, "demo.pdf", b.Bytes())
}

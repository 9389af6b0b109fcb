package field_test

import (
	"bytes"
	"encoding/base64"
	"image"
	"image/png"
	"math"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/field"
	"haunchbook.example/app/job"
	"haunchbook.example/app/pour"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	steel "haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/layout/joints"
	"haunchbook.example/geometry/plan"
)

func pt(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }

// full is a sound job with everything in it.
func full(t *testing.T) job.Job {
	j := demo(t)
	j.Slabs[0] = j.Slabs[0].Clone()
	j.Slabs[0].Pads = []plan.Pad{{Name: "P1", Center: pt(10*foot, 20*foot), Width: 2 * foot, Length: 2 * foot, Depth: foot}}
	j.Slabs[0].Strips = []plan.Strip{{Path: []geometry.Point{pt(5*foot, 24*foot), pt(20*foot, 24*foot)}, Bottom: foot, Depth: foot}}
	j.Survey = j.Survey.Clone()
	j.Price.Prices = estimate.Starting(j.Units)
	j.Price.Extras = []estimate.Extra{{Name: "Drain", Amount: decimal.NewFromInt(-90)}}
	if faults := j.Validate(); len(faults) > 0 {
		t.Fatal(faults)
	}
	return j
}

func TestCheck(t *testing.T) {
	long := strings.Repeat("x", 91)
	d := decimal.RequireFromString
	slab := func(f func(*plan.Plan)) func(*job.Job) { return func(j *job.Job) { f(&j.Slabs[0]) } }
	for _, c := range []struct {
		name   string
		change func(*job.Job)
		path   string
		text   string // a part of what was found and what would do
	}{
		{"no field", slab(func(p *plan.Plan) { p.Field = 0 }), "slabs[0].field", `found 0"; must be more than 0", and at most 10 m`},
		{"thick field", slab(func(p *plan.Plan) { p.Field = 10*geometry.Meter + 1 }), "slabs[0].field", "found 10000.000001 mm"},
		{"high slab", slab(func(p *plan.Plan) { p.Height = math.MinInt64 }), "slabs[0].height", "from -10 km to 10 km"},
		{"no width", slab(func(p *plan.Plan) { p.Sections[0].Bottom, p.Sections[0].Taper = 0, 0 }), "slabs[0].sections[0].bottom", "flat bottom, a taper, or both"},
		{"negative taper", slab(func(p *plan.Plan) { p.Sections[0].Taper = -inch }), "slabs[0].sections[0].taper", `found -1"; must be from 0"`},
		{"no name", slab(func(p *plan.Plan) { p.Sections = append(p.Sections, plan.Section{Depth: foot, Bottom: foot}) }), "slabs[0].sections[2].name", "found nothing; give the name"},
		{"twice the name", slab(func(p *plan.Plan) { p.Sections = append(p.Sections, p.Sections[0]) }), "slabs[0].sections[2].name", "a second time; choose another"},
		{"door before the edge", slab(func(p *plan.Plan) { p.Outline[0].Doors[0].From = -foot }), "slabs[0].outline[0].doors[0].from", "must be from 0"},
		{"door without width", slab(func(p *plan.Plan) { p.Outline[0].Doors[0].Width = 0 }), "slabs[0].outline[0].doors[0].width", "more than 0"},
		{"door too long", slab(func(p *plan.Plan) { p.Outline[0].Doors[0].Width = 25 * foot }), "slabs[0].outline[0].doors[0].width", `on an edge of 22'-6"`},
		{"half a lip", slab(func(p *plan.Plan) { p.Outline[0].Doors[0].Lip = plan.Lip{Inset: 6 * inch} }), "slabs[0].outline[0].doors[0].lip", "give both"},
		{"runs back", slab(func(p *plan.Plan) { p.Outline[3].RunOut = -1 }), "slabs[0].outline[3].runout", "found -0.000001 mm"},
		{"bolt far away", slab(func(p *plan.Plan) { p.Outline[1].Bolts = []plan.BoltMark{{Along: 11_000 * geometry.Meter}} }), "slabs[0].outline[1].bolts[0].along", "10 km"},
		{"turned pad", slab(func(p *plan.Plan) { p.Pads[0].Turn = math.NaN() }), "slabs[0].pads[0].turn", "found no number"},
		{"thin strip", slab(func(p *plan.Plan) { p.Strips[0].Bottom = 0 }), "slabs[0].strips[0].bottom", "more than 0"},
		{"rising fall", slab(func(p *plan.Plan) { p.Top.Falls[0].Drop = -inch }), "slabs[0].top.falls[0].drop", "must be from 0"},
		{"shallow section", slab(func(p *plan.Plan) { p.Sections[0].Depth = 5 * inch }), "slabs[0].sections[0].depth", "at least the field's thickness"},

		{"north", func(j *job.Job) { j.Survey.North.Turn = 361 }, "survey.north.turn", "found 361°"},
		{"no benchmark", func(j *job.Job) { j.Survey.Benchmarks[0].Name = "" }, "survey.benchmarks[0].name", "found nothing"},
		{"benchmark far away", func(j *job.Job) { j.Survey.Benchmarks[0].At.X = geometry.MaxLength + 1 }, "survey.benchmarks[0].at", "of the origin"},
		{"high", func(j *job.Job) { j.Survey.Benchmarks[0].Height = math.MinInt64 }, "survey.benchmarks[0].height", "10 km"},
		{"no text", func(j *job.Job) { j.Survey.Notes[0].Text = "" }, "survey.notes[0].text", "found nothing"},
		{"a book", func(j *job.Job) { j.Survey.Notes[0].Text = strings.Repeat("é", 2001) }, "survey.notes[0].text", "keep it to 2000 letters; it has 2001"},
		{"leader far away", func(j *job.Job) { j.Survey.Notes[0].To.Y = math.MinInt64 }, "survey.notes[0].to", "of the origin"},
		{"too many notes", func(j *job.Job) { j.Survey.Notes = make([]plan.Note, 501) }, "survey.notes", "keep 500 at most"},

		{"all its digits", func(j *job.Job) { j.Units, j.Spec.Mix.Slump = geometry.Millimeters, -269_875*100 }, "spec.mix.slump", "found -26.9875 mm; must be from 0 mm to 310 mm"},
		{"no number", func(j *job.Job) { j.Spec.Mix.Air = math.NaN() }, "spec.mix.air", "found no number"},
		{"unending", func(j *job.Job) { j.Spec.Order.Waste = decimal.New(1, 999999999) }, "spec.order.waste", "too many digits"},
		{"unending where not used", func(j *job.Job) { j.Spec.Base.Gravel, j.Spec.Base.Density = 0, decimal.New(1, 999999999) }, "spec.base.density", "too many digits"},
		{"no dose", func(j *job.Job) { j.Spec.Place.Field.Kind, j.Spec.Mix.Fiber = steel.Fiber, 0 }, "spec.mix.fiber", "give its dose"},
		{"no such bar", func(j *job.Job) { j.Spec.Place.Bars.Size = 9 }, "spec.place.bars.size", "found 9; write 3, 4, 5, 6, 7 or 8"},
		{"no such grade", func(j *job.Job) { j.Spec.Place.Bars.Grade = 50 }, "spec.place.bars.grade", "write 40, 60 or 80"},
		{"two rules", func(j *job.Job) { j.Spec.Place.Bars.Rows = []bars.Row{{Face: inch, Bottom: inch, Top: inch}} }, "spec.place.bars.rows[0]", "give the cover to one of them"},
		{"many rows", func(j *job.Job) { j.Spec.Place.Bars.Rows = make([]bars.Row, 21) }, "spec.place.bars.rows", "found 21; keep 20 at most"},
		{"no stock", func(j *job.Job) { j.Spec.Place.Forms.Stock = nil }, "spec.place.forms.stock", "found none; give at least 1"},
		{"short stock", func(j *job.Job) { j.Spec.Place.Bars.Stock = []geometry.Length{20 * foot, foot} }, "spec.place.bars.stock[1]", `found 1'-0"; must be from 5'-0" to 200'-0"`},
		{"laps longer than bars", func(j *job.Job) {
			j.Spec.Place.Bars.Lap = bars.Lap{Rule: bars.LapByLength, Length: 11 * foot}
		}, "spec.place.bars.lap", "half the longest stock"},
		{"no lap", func(j *job.Job) { j.Spec.Place.Bars.Lap = bars.Lap{Rule: bars.LapByLength} }, "spec.place.bars.lap.length", `from 6"`},
		{"a short leg", func(j *job.Job) { j.Spec.Place.Bars.Leg = foot }, "spec.place.bars.leg", "the lap and the bend of row 1"},
		{"small mesh", func(j *job.Job) { j.Spec.Place.Field.Kind, j.Spec.Place.Field.Width = steel.Mesh, foot }, "spec.place.field.width", "a foot more than the lap"},
		{"no mesh", func(j *job.Job) { j.Spec.Place.Field.Kind, j.Spec.Place.Field.Style = steel.Mesh, "chicken" }, "spec.place.field.style", "found “chicken”; write 6x6-W1.4xW1.4,"},
		{"no grid", func(j *job.Job) { j.Spec.Place.Field.Kind, j.Spec.Place.Field.Spacing = steel.Grid, 0 }, "spec.place.field.spacing", `from 2"`},
		{"long dowel hole", func(j *job.Job) { j.Spec.Place.Dowels.Embed = 20 * inch }, "spec.place.dowels.embed", `found 1'-8"; must be at most 1'-4" (Length)`},
		{"bolt above itself", func(j *job.Job) { j.Spec.Place.Bolts.Projection = foot }, "spec.place.bolts.projection", `at most 10" (Length)`},
		{"ends crossed", func(j *job.Job) { j.Spec.Place.Bolts.EndMin = 2 * foot }, "spec.place.bolts.endmin", `at most 1'-0" (From a plate's end, at most)`},
		{"studs too near", func(j *job.Job) { j.Spec.Place.Bolts.Stud = inch }, "spec.place.bolts.stud", `must be from 6" to 10'-0", or 0: not looked at`},
		{"no board", func(j *job.Job) { j.Spec.Place.Forms.Board = "2x14" }, "spec.place.forms.board", "or nothing: by the depth of the edge"},
		{"narrow roll", func(j *job.Job) { j.Spec.Base.RollWidth = 6 * inch }, "spec.base.rollwidth", `at least 7" (Retarder lap + 1")`},

		{"nobody", func(j *job.Job) { j.Pour.Crew.People = 0 }, "pour.crew.people", "from 1 to 100"},
		{"slow crew", func(j *job.Job) { j.Pour.Crew.Rate = d("0.05") }, "pour.crew.rate", "found 0.05 yd³/h; must be from 0.1 yd³/h"},
		{"short straightedge", func(j *job.Job) { j.Pour.Reach.Overlap = 14 * foot }, "pour.reach.overlap", `at most 13'-6" (Straightedge − 6")`},
		{"no air", func(j *job.Job) { j.Pour.Weather = []pour.Hour{{Concrete: pour.Fahrenheit(70), Humidity: 50}} }, "pour.weather[0].air", "found nothing; give the air, such as 80 °F"},
		{"not damp", func(j *job.Job) { j.Pour.Weather[0].Humidity = 0 }, "pour.weather[0].humidity", "or a dew point"},
		{"twice damp", func(j *job.Job) { j.Pour.Weather[0].Dew = pour.Fahrenheit(50) }, "pour.weather[0].dew", "not both"},
		{"dew above air", func(j *job.Job) { j.Pour.Weather[0].Humidity, j.Pour.Weather[0].Dew = 0, pour.Fahrenheit(90) }, "pour.weather[0].dew", "not above the air's temperature, 58 °F"},
		{"late hour", func(j *job.Job) { j.Pour.Weather[1].Time = 60 }, "pour.weather[1].time", "later than the hour before it, 08:00"},
		{"many places", func(j *job.Job) { j.Pour.Stations = make([]geometry.Point, 21) }, "pour.stations", "keep 20 at most"},

		{"margin", func(j *job.Job) { j.Price.ProfitAs, j.Price.Profit = estimate.Margin, d("100") }, "price.profit", "under 100 %"},
		{"tax", func(j *job.Job) { j.Price.Tax = d("100") }, "price.tax", "from 0 % to under 100 %"},
		{"many digits", func(j *job.Job) { j.Price.Extras[0].Amount = d("1234567890123") }, "price.extras[0].amount", "write at most 12"},
		{"many terms", func(j *job.Job) { j.Price.Terms.Included = make([]string, 11) }, "price.terms.included", "keep 10 at most"},
		{"long term", func(j *job.Job) { j.Price.Terms.Excluded = []string{"Permits", long} }, "price.terms.excluded[1]", "keep it to 90 letters; it has 91"},
		{"two lines", func(j *job.Job) { j.Price.Terms.Start = "May\nJune" }, "price.terms.start", "write it in one line"},
		{"long bid", func(j *job.Job) { j.Price.Terms.Days = 366 }, "price.terms.days", "found 366 days"},
		{"seven options", func(j *job.Job) { j.Price.Options = make([]estimate.Option, 7) }, "price.options", "keep 6 at most"},
		{"prices nothing", func(j *job.Job) { j.Price.Prices.Items[0].What = takeoff.ID{} }, "price.prices.items[0].what.kind", "name what the item prices"},
		{"priced twice", func(j *job.Job) { j.Price.Prices.Items[1].What = j.Price.Prices.Items[0].What }, "price.prices.items[1].what", "a second time"},
		{"fee of nothing", func(j *job.Job) { j.Price.Prices.Fees[0].For, j.Price.Prices.Fees[0].What = "unit", takeoff.ID{} }, "price.prices.fees[0].what.kind", "name the quantity"},

		{"no picture", func(j *job.Job) {
			j.Sketch = job.Sketch{Image: strings.Repeat("QUJD", 40), Corners: []geometry.Point{{}, pt(1, 0), pt(1, 1), pt(0, 1)}}
		}, "sketch.image", "found no picture"},
		{"three corners", func(j *job.Job) { j.Sketch = job.Sketch{Image: pixel(t), Corners: make([]geometry.Point, 3)} }, "sketch.corners", "give four"},
		{"dented", func(j *job.Job) {
			j.Sketch = job.Sketch{Image: pixel(t), Corners: []geometry.Point{{}, pt(foot, foot), pt(foot, 0), pt(0, foot)}}
		}, "sketch.corners", "make no picture"},
		{"faded away", func(j *job.Job) {
			j.Sketch = job.Sketch{Image: pixel(t), Corners: []geometry.Point{{}, pt(1, 0), pt(1, 1), pt(0, 1)}, Fade: 101}
		}, "sketch.fade", "from 0 % to 100 %"},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := full(t)
			j.Pour.Weather = append([]pour.Hour{}, j.Pour.Weather...)
			c.change(&j)
			faults := j.Validate()
			if !faults.Of(c.path) {
				t.Fatalf("no fault of %s among\n%v", c.path, faults)
			}
			of := 0
			for _, f := range faults {
				if f.Path == c.path {
					of++
					if text := "found " + f.Found + "; " + f.Want; !strings.Contains(text, c.text) {
						t.Errorf("%s, want %s", text, c.text)
					}
				}
			}
			if of > 1 {
				t.Errorf("%d faults of one field: %v", of, faults)
			}
		})
	}
}

// pixel is a picture in base64.
func pixel(t *testing.T) string {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, 3, 2))); err != nil {
		t.Fatal(err)
	}
	return base64.StdEncoding.EncodeToString(b.Bytes())
}

// A fault of something drawn has a place on the drawing.
func TestFaultsHaveAPlace(t *testing.T) {
	j := full(t)
	j.Slabs[0].Outline[3].Doors = []plan.Door{{Width: -1}}
	j.Slabs[0].Field = 0
	faults := field.Check("slabs[0]", j.Slabs[0], j.Units)
	if len(faults) != 2 || faults[0].At != j.Slabs[0].Outline[0].At || faults[1].At != j.Slabs[0].Outline[3].At {
		t.Errorf("%+v", faults)
	}
}

// A form shows what is used: the fields of the steel that was chosen.
func TestUsed(t *testing.T) {
	j := full(t)
	j.Spec.Place.Field.Kind = steel.Mesh
	j.Slabs[0].Sections = append(j.Slabs[0].Sections, plan.Section{Name: "Own", Profile: make([]plan.Station, 2)})
	for path, want := range map[string]bool{
		"spec.place.field.kind": true, "spec.place.field.style": true, "spec.place.field.spacing": false, "spec.place.field.cover": true,
		"spec.place.bars.lap.length": false, "spec.base.foamwidth": false, "spec.base.lap": true, "spec.place.bars.stock[]": true,
		"slabs[0].sections[0].depth": true, "slabs[0].sections[2].depth": false, "name": true, "no.such": false, "spec.no": false,
	} {
		if got := field.Used(j, path); got != want {
			t.Errorf("%s is used: %v", path, got)
		}
	}
}

// What is not used may hold anything that can be written.
func TestWhatIsNotUsedIsNotAsked(t *testing.T) {
	j := full(t)
	j.Spec.Base.Foam, j.Spec.Base.FoamWidth = 0, -foot
	j.Spec.Place.Dowels = joints.Spec{}
	if faults := j.Validate(); len(faults) > 0 {
		t.Error(faults)
	}
}

package book

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	resources "fyne.io/fyne/v2/storage"

	"haunchbook.example/app/hold"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/export/sheet"
	"haunchbook.example/geometry"
)

// photo writes a picture of one color, and gives where.
func photo(t *testing.T, name string, c color.Color) fyne.URI {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, 2000, 1500))
	draw.Draw(img, img.Rect, image.NewUniform(c), image.Point{}, draw.Src)
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, nil); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return resources.NewFileURI(path)
}

// What was seen goes into the fields of the job that it is about, and in words beside them;
// photographs are made smaller, kept, placed on the plan and printed; and undo takes each
// step back.
func TestSiteVisit(t *testing.T) {
	d, p := opened(t)
	was := d.Base()
	hands.On(t, p.root).Press(officeName)
	hands.On(t, p.body).Press(visitName)
	f := hands.On(t, p.body)
	f.Fill("Gravel", `6"`)
	f.Fill("Drive", "35")
	f.Fill("As seen", "Alley from the north, 11 ft wide")
	f.Press("Add a utility locate")
	j := d.Base()
	if j.Spec.Base.Gravel != 6*geometry.Inch || j.Pour.Trucks.Travel != 35 || j.Visit.OnSite != "Alley from the north, 11 ft wide" || len(j.Holds) != 1 || j.Holds[0].Kind != hold.Locate {
		t.Errorf("gravel %v, drive %v, %+v, holds %+v", j.Spec.Base.Gravel, j.Pour.Trucks.Travel, j.Visit, j.Holds)
	}
	f.ReadsNot("Place it")
	if !p.TakesPictures() {
		t.Fatal("pictures dropped here are not taken")
	}
	p.Dropped([]fyne.URI{photo(t, "a.jpg", color.Gray{90}), resources.NewFileURI("/nowhere.jpg"), photo(t, "b.jpg", color.White)}, resources.Reader)
	j = d.Base()
	if len(j.Visit.Photos) != 2 || j.Visit.Photos[0].Date.String() != d.Today() || j.Visit.Photos[0].Image == j.Visit.Photos[1].Image {
		t.Fatalf("%d photographs", len(j.Visit.Photos))
	}
	f.Fill("Of what", "from the street")
	f.Press("Place it on the plan")
	put, ok := d.Drawn.(*tool.PlacePhoto)
	if !ok || put.N != 1 || d.Base().Visit.Photos[1].Name != "from the street" {
		t.Fatalf("%T is drawn, %q", d.Drawn, d.Base().Visit.Photos[1].Name)
	}
	pages, err := sheet.PhotoPages(p.now(), p.officeOptions())
	if err != nil || len(pages) != 1 {
		t.Errorf("%d pages of photographs, %v", len(pages), err)
	}
	kept, err := d.Shelf.Book().Get(d.Shelf.ID())
	if err != nil || !kept.Same(d.Base()) {
		t.Errorf("the book has another job, %v", err)
	}
	for range 6 { // gravel, drive, access, locate, photographs, of what
		d.Undo()
	}
	if !d.Base().Same(was) {
		t.Errorf("undone it is another job: %+v", d.Base().Visit.OnSite)
	}
	id, err := d.Shelf.Book().Create(hands.Demo(t))
	if err != nil {
		t.Fatal(err)
	}
	p.Update()
	p.choose(id)
	p.turnTo(visitName)
	hands.On(t, p.root).Reads("open it to read and write them")
	if p.TakesPictures() {
		t.Error("pictures are taken for a job that is not open")
	}
}

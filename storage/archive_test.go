package storage

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"runtime"
	"strings"
	"testing"
	"time"
)

// overlapping is an archive of n entries whose data is all the same bytes: the list
// says of each that it lies where the first does.
func overlapping(t *testing.T, n int, text []byte) []byte {
	t.Helper()
	var buf bytes.Buffer
	z := zip.NewWriter(&buf)
	for i := range n {
		h := &zip.FileHeader{Name: fmt.Sprintf("jobs/%06d/job.json", i), Method: zip.Deflate}
		if i > 0 { // of the same length as the first, so that its data lies alike
			h.Method = zip.Store
			h.CompressedSize64, h.UncompressedSize64, h.CRC32 = 0, 0, crc32.ChecksumIEEE(nil)
			if _, err := z.CreateRaw(h); err != nil {
				t.Fatal(err)
			}
			continue
		}
		w, err := z.CreateHeader(h)
		if err == nil {
			_, err = w.Write(text)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	data := buf.Bytes()
	// Every row of the list takes over what the first says of its data.
	at := bytes.Index(data, []byte("PK\x01\x02"))
	first := bytes.Clone(data[at : at+46])
	for row := at; row+46 <= len(data) && bytes.HasPrefix(data[row:], []byte("PK\x01\x02")); {
		size := 46 + int(binary.LittleEndian.Uint16(data[row+28:])) + int(binary.LittleEndian.Uint16(data[row+30:]))
		copy(data[row+8:row+28], first[8:28])   // flags, method, time, checksum, sizes
		copy(data[row+42:row+46], first[42:46]) // where
		row += size
	}
	return data
}

// padded is an archive of entries that pack to almost nothing.
func padded(t *testing.T, n, size int) []byte {
	t.Helper()
	files := map[string]string{"book.json": `{"haunchbook-export": 1}`}
	text := `{"haunchbook": 3, "notes": "` + strings.Repeat(" ", size) + `"}`
	for i := range n {
		files[fmt.Sprintf("jobs/%06d/job.json", i)] = text
	}
	return bundle(t, files)
}

// An archive made to unpack to far more than it is, is refused from its list.
func TestArchiveBounds(t *testing.T) {
	if testing.Short() {
		t.Skip("goes through much, one after the other: run without -short")
	}
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"overlapping entries":  {overlapping(t, 600, bytes.Repeat([]byte("job "), 100)), "overlap"},
		"overlapping and huge": {overlapping(t, 600, bytes.Repeat([]byte("job "), 1<<20)), "unpacks to more than"},
		"packed to nothing":    {padded(t, 60, 4<<20), "unpacks to more than"},
		"one file too large":   {padded(t, 1, maxEntry), "64 are the most"},
	} {
		t.Run(name, func(t *testing.T) {
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			_, err := openArchive(bytes.NewReader(c.data), int64(len(c.data)))
			runtime.ReadMemStats(&after)
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%d kB: %v; want %q", len(c.data)>>10, err, c.want)
			}
			if mb := (after.TotalAlloc - before.TotalAlloc) >> 20; mb > 50 {
				t.Errorf("it took %d MB", mb)
			}
			b := open(t, newPath(t))
			if _, err := b.ImportBytes(context.Background(), c.data); !IsKind(err, Invalid) {
				t.Errorf("imported: %v", err)
			}
		})
	}
}

func TestImportByteOrderMark(t *testing.T) {
	b := open(t, newPath(t))
	const mark = "\ufeff"
	done, err := b.ImportBytes(context.Background(), bundle(t, map[string]string{
		"book.json": mark + `{"haunchbook-export": 1}`, "jobs/1/job.json": mark + string(shop(1).Encode()), "jobs/1/about.json": mark + `{"state": "won"}`,
	}))
	if err != nil || len(done.Jobs) != 1 || must(b.Summary(done.Jobs[0]))(t).State != Won {
		t.Errorf("%+v, %v", done, err)
	}
}

// many is an export of n jobs with some revisions each.
func many(t testing.TB, n, revisions int) []byte {
	t.Helper()
	files := map[string]string{"book.json": `{"haunchbook-export": 1}`}
	for i := range n {
		dir, text := fmt.Sprintf("jobs/%04d/", i+1), string(shop(i).Encode())
		files[dir+"job.json"] = text
		for r := range revisions {
			files[fmt.Sprintf("%srevisions/%d.json", dir, r+1)] = `{"note": "printed", "time": "2026-03-02T07:00:00Z", "job": ` + text + `}`
		}
	}
	return bundle(t, files)
}

// Many jobs with many revisions each come in whole; BenchmarkImport prints how long a
// job takes among many, which is as long as among few.
func TestImportOfManyJobs(t *testing.T) {
	if testing.Short() {
		t.Skip("goes through much, one after the other: run without -short")
	}
	const jobs, revisions = 60, 20
	b := open(t, newPath(t))
	done, err := b.ImportBytes(context.Background(), many(t, jobs, revisions))
	if err != nil || len(done.Jobs) != jobs {
		t.Fatal(len(done.Jobs), err)
	}
	for i, id := range done.Jobs {
		if j := must(b.Get(id))(t); j.Name != shop(i).Name {
			t.Errorf("job %d is %q", i, j.Name)
		}
		if r := must(b.Revisions(id))(t); len(r) != revisions || r[0].Number != 1 || r[revisions-1].Number != revisions {
			t.Errorf("%v has %d revisions", id, len(r))
		}
	}
}

func BenchmarkImport(b *testing.B) {
	for _, jobs := range []int{250, 500, 1000, 2000} {
		data := many(b, jobs, 20)
		b.Run(fmt.Sprint(jobs), func(b *testing.B) {
			for b.Loop() {
				book, err := Open(newPath(b), Options{NoBackup: true, Now: time.Now})
				if err == nil {
					_, err = book.ImportBytes(context.Background(), data)
				}
				if err != nil {
					b.Fatal(err)
				}
				book.Close()
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*jobs), "µs/job")
		})
	}
}

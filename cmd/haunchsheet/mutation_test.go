package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"runtime/debug"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"haunchbook.example/assets"
)

// tries is how often the test changes a job; HAUNCHBOOK_TRIES sets another number than
// the small one.
func tries(small int) int {
	if n, err := strconv.Atoi(os.Getenv("HAUNCHBOOK_TRIES")); err == nil {
		return n
	}
	return small
}

// leaf gives a value as somebody might type it, or a fault of another program.
func leaf(random *rand.Rand) any {
	pool := []any{
		"0", "", "-1\"", "1/16\"", "1'", "3'-4 1/2\"", "12\"", "40'", "9999 m", "0.000001 mm", "1e9", "٣", "\x00", "=1+1", "\u202e", "<b>",
		json.Number("0"), json.Number("-1"), json.Number("7"), json.Number("1e308"), json.Number("99999999999999999999"),
		true, false, nil, []any{}, map[string]any{}, []any{"0", "0"}, strings.Repeat("long ", 500), "Edge 16", "2x6", "overhead", "mm", "ft-in", "won",
	}
	return pool[random.IntN(len(pool))]
}

// alike gives a value of the same kind as one that is there, as somebody might change
// it.
func alike(v any, random *rand.Rand) any {
	switch v := v.(type) {
	case bool:
		return !v
	case json.Number:
		return json.Number(strconv.Itoa(random.IntN(40)))
	case string:
		if strings.HasSuffix(v, "\"") || strings.HasSuffix(v, "'") || v == "0" {
			return []string{"0", "1\"", "4\"", "8\"", "10 1/2\"", "14\"", "2'", "3'-4\"", "5'", "9'-6 1/2\"", "16'", "31'"}[random.IntN(12)]
		}
		return v + " 2"
	}
	return v
}

// places gives the lists and objects of a value.
func places(v any) []any {
	out := []any{}
	switch v := v.(type) {
	case map[string]any:
		out = append(out, v)
		for _, k := range keys(v) {
			out = append(out, places(v[k])...)
		}
	case []any:
		if len(v) > 0 {
			out = append(out, v)
		}
		for _, e := range v {
			out = append(out, places(e)...)
		}
	}
	return out
}

func keys(m map[string]any) []string {
	var out []string
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// change changes one thing in a job: a value, a field that goes, a thing that is there
// many times.
func change(job map[string]any, random *rand.Rand) {
	all := places(job)
	switch p := all[random.IntN(len(all))].(type) {
	case map[string]any:
		k := keys(p)
		if len(k) == 0 {
			return
		}
		at := k[random.IntN(len(k))]
		list, isList := p[at].([]any)
		switch kind := random.IntN(6); {
		case kind == 0:
			delete(p, at)
		case kind == 1 && isList && len(list) > 0:
			for range 1 + random.IntN(12) {
				list = slices.Insert(list, random.IntN(len(list)+1), list[random.IntN(len(list))])
			}
			p[at] = list
		case kind == 2 && isList && len(list) > 0:
			p[at] = slices.Delete(list, 0, 1)
		case kind == 3 && isList:
			slices.Reverse(list)
		case random.IntN(3) == 0:
			p[at] = leaf(random)
		default:
			p[at] = alike(p[at], random)
		}
	case []any:
		at := random.IntN(len(p))
		switch random.IntN(6) {
		case 0:
			p[at] = p[random.IntN(len(p))]
		case 1:
			p[at] = leaf(random)
		default:
			p[at] = alike(p[at], random)
		}
	}
}

// mutated gives a job file that was changed in a few places, as values or as bytes.
func mutated(t *testing.T, base string, random *rand.Rand) string {
	t.Helper()
	if random.IntN(8) == 0 {
		b := []byte(base)
		for range 1 + random.IntN(5) {
			b[random.IntN(len(b))] = byte(random.IntN(256))
		}
		return string(b[:len(b)-random.IntN(2)*random.IntN(len(b))])
	}
	var job map[string]any
	dec := json.NewDecoder(strings.NewReader(base))
	dec.UseNumber()
	if err := dec.Decode(&job); err != nil {
		t.Fatal(err)
	}
	for range 1 + random.IntN(4) {
		change(job, random)
	}
	data, err := json.Marshal(job)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// unending is when the test gives up on a job that it waits for: no measure of speed.
const unending = 5 * time.Minute

// outcome runs the program on a job: its exit code and what it said of faults, or the
// panic that ended it.
func outcome(job, dir string) (code int, said string) {
	type result struct {
		code int
		said string
	}
	done := make(chan result, 1)
	go func() {
		var errs bytes.Buffer
		r := result{code: -1}
		defer func() {
			if p := recover(); p != nil {
				r.said = fmt.Sprintf("panic: %v\n%s", p, debug.Stack())
			}
			done <- r
		}()
		r.code = run([]string{"-out", dir, "-"}, strings.NewReader(job), &bytes.Buffer{}, &errs)
		r.said = errs.String()
	}()
	select {
	case r := <-done:
		return r.code, r.said
	case <-time.After(unending):
		return -1, "it does not end"
	}
}

// A job file changed anyhow gives its documents, or faults that name their places;
// nothing ends the program, and no file is left of a job that is refused.
func TestMutations(t *testing.T) {
	random := rand.New(rand.NewPCG(21, 22))
	bases := []string{string(assets.Demo()), twoSlabs(t)}
	n, made, refused, failed := tries(30), 0, 0, 0
	for i := range n {
		job := mutated(t, bases[i%len(bases)], random)
		dir := t.TempDir() + "/out"
		code, said := outcome(job, dir)
		files, _ := os.ReadDir(dir)
		switch {
		case code == 0 && len(files) == len(fileNames):
			made++
		case code == 1 && strings.HasPrefix(said, "haunchsheet: ") && len(files) == 0:
			refused++
		default:
			failed++
			t.Errorf("job %d: exit code %d, %d files, %.2000s\n%.3000s", i, code, len(files), said, job)
		}
		_ = os.RemoveAll(dir)
	}
	t.Logf("mutations: %d tries, %d failures; %d gave their documents, %d were refused", n, failed, made, refused)
}

package window

import (
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"sync"

	"fyne.io/fyne/v2"

	"haunchbook.example/app/window/pages/printing"
	"haunchbook.example/storage/wholefile"
)

// habits are the preferences that are kept a second time.
type habits struct {
	Numbers map[string]float64
	Texts   map[string]string
}

// keptKey is a preference that is there unless all were lost.
const keptKey = "kept"

// KeepHabits keeps the window's preferences a second time, in a file that is whole
// whenever the program is killed: the toolkit empties its own before it writes, and of a
// half one it reads nothing. Where that was lost, they come back from the file.
func KeepHabits(p fyne.Preferences, file string) {
	var last habits
	if data, err := os.ReadFile(file); err == nil && !p.Bool(keptKey) && json.Unmarshal(data, &last) == nil {
		last.put(p)
	}
	p.SetBool(keptKey, true)
	var one sync.Mutex
	keep := func() {
		one.Lock()
		defer one.Unlock()
		now := habitsOf(p)
		if reflect.DeepEqual(now, last) {
			return
		}
		data, err := json.Marshal(now)
		if err == nil {
			err = wholefile.MkdirAll(filepath.Dir(file))
		}
		if err == nil {
			err = wholefile.Write(file, wholefile.Bytes(data))
		}
		if err == nil { // else the next change tries again: it is the second copy
			last = now
		}
	}
	keep()
	p.AddChangeListener(keep)
}

// habitsOf gives what there is of them.
func habitsOf(p fyne.Preferences) habits {
	h := habits{Numbers: map[string]float64{}, Texts: map[string]string{}}
	for _, k := range []string{widthKey, heightKey} {
		if v := p.FloatWithFallback(k, -1); v >= 0 {
			h.Numbers[k] = v
		}
	}
	if v := p.IntWithFallback(appearanceKey, -1); v >= 0 {
		h.Numbers[appearanceKey] = float64(v)
	}
	const none = "\x00"
	for _, k := range []string{layersKey, languageKey, printing.FolderKey} {
		if v := p.StringWithFallback(k, none); v != none {
			h.Texts[k] = v
		}
	}
	return h
}

func (h habits) put(p fyne.Preferences) {
	for k, v := range h.Numbers {
		if k == appearanceKey {
			p.SetInt(k, int(v))
		} else {
			p.SetFloat(k, v)
		}
	}
	for k, v := range h.Texts {
		p.SetString(k, v)
	}
}

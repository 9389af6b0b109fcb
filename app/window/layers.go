package window

import (
	"fyne.io/fyne/v2"

	"haunchbook.example/app/window/canvas/scene"
	"haunchbook.example/app/window/form"
)

// layersKey is the preference that remembers which layers are on.
const layersKey = "layers"

// loadLayers gives the layers as they were last.
func loadLayers(p fyne.Preferences) scene.Layers {
	if text := p.StringWithFallback(layersKey, "\x00"); text != "\x00" {
		return scene.ReadLayers(text)
	}
	return scene.Usual
}

// layersChanged shows the layers as they are now and remembers them.
func (w *Window) layersChanged() {
	w.app.Preferences().SetString(layersKey, w.plan.Layers.String())
	w.plan.Redraw()
	w.refresh()
}

// showLayers opens the list of layers below its button. Tab goes from one to the
// next, Space turns it, Esc closes the list.
func (w *Window) showLayers() {
	f := form.New(&desk{w.doc, w})
	for _, l := range w.plan.Layers.List() {
		f.Check(l.Name+": "+l.Text, func() bool { return *l.On }, func(on bool) error {
			*l.On = on
			w.layersChanged()
			return nil
		})
	}
	set := func(text string, to scene.Layers) fyne.CanvasObject {
		return form.Do(text, func() {
			w.plan.Layers = to
			w.layersChanged()
			f.Sync()
		})
	}
	f.Buttons(set("All", scene.All), set("As at first", scene.Usual))
	w.openList(f.Box, w.bar.layers)
}

package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"haunchbook.example/app/window/canvas/scene"
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
	box := container.NewVBox()
	var shut func()
	var syncs []func()
	for _, l := range w.plan.Layers.List() {
		ck := newCheck(l.Name+": "+l.Text, func(on bool) {
			if on != *l.On {
				*l.On = on
				w.layersChanged()
			}
		})
		ck.Checked, ck.esc = *l.On, func() { shut() }
		syncs = append(syncs, func() { ck.SetChecked(*l.On) })
		box.Add(ck)
	}
	set := func(text string, to scene.Layers) fyne.CanvasObject {
		b := newButton(text, func() {
			w.plan.Layers = to
			w.layersChanged()
			for _, sync := range syncs {
				sync()
			}
		})
		b.esc = func() { shut() }
		return b
	}
	box.Add(container.NewGridWithColumns(2, set("All", scene.All), set("As at first", scene.Usual)))
	shut = w.popup(box, w.bar.layers)
}

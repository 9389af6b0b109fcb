package window

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Every line of the sheet of keys does what it says; a line without a check here
// fails. Lines that are made from the menu and the tables of keys are checked
// against what those do.
func TestKeySheet(t *testing.T) {
	exhaustive(t)
	outline := func(w *Window) plan.Loop { return w.doc.Plan().Outline }
	selected := func(w *Window, k tool.Kind) { w.machine.Selected = tool.Target{Kind: k} }
	checks := map[string]func(t *testing.T, w *Window) bool{
		"24-6 Enter": func(_ *testing.T, w *Window) bool {
			w.typed("l0,0<Return><Right>24-6<Return>")
			return chained(w, 1) == pt(24*ft+ft/2, 0)
		},
		"arrow keys: point": func(_ *testing.T, w *Window) bool {
			w.typed("l0,0<Return><Right>4<Return><Up>3<Return><Left>2<Return><Down>1<Return>")
			return chained(w, 4) == pt(2*ft, 2*ft)
		},
		"12' right Enter": func(_ *testing.T, w *Window) bool {
			w.typed("l0,0<Return>")
			w.text("12' right")
			w.typed("<Return>")
			return chained(w, 1) == pt(12*ft, 0)
		},
		"12' at 30° Enter": func(_ *testing.T, w *Window) bool {
			w.typed("l0,0<Return>")
			w.text("12' at 30°")
			w.typed("<Return>")
			return chained(w, 1).Y == 6*ft
		},
		"4' right, 3' up Enter": func(_ *testing.T, w *Window) bool {
			w.typed("l0,0<Return>4' right, 3' up<Return>")
			return chained(w, 1) == pt(4*ft, 3*ft)
		},
		"24 x 30 Enter": func(_ *testing.T, w *Window) bool {
			w.typed("r24 x 30<Return>")
			return outline(w).Length(0) == 24*ft
		},
		"(": func(_ *testing.T, w *Window) bool {
			w.typed("l0,0<Return>12' right<Return>(5' right, 5' up<Return>10' up<Return>12' left<Return><Return>")
			drawn := len(outline(w)) == 4 && outline(w)[1].Middle > 4*ft
			w.machine.Selected = tool.Target{Kind: tool.Edge}
			w.typed("(6', -2'<Return>")
			return drawn && outline(w)[0].Middle > ft
		},
		"Enter": func(_ *testing.T, w *Window) bool {
			w.typed("l0,0<Return>9 right<Return>9 up<Return><Return>")
			return len(outline(w)) == 3
		},
		"Backspace": func(_ *testing.T, w *Window) bool {
			w.typed("l0,0<Return>9 right<Return><BackSpace>")
			return chain(w) == 1
		},
		"Shift": func(_ *testing.T, w *Window) bool {
			w.typed("l0,0<Return>")
			at := w.at(pt(10*ft+geometry.Inch/3, 3*ft+geometry.Inch/5))
			e := &desktop.MouseEvent{}
			e.Position = at
			w.plan.MouseMoved(e)
			held := w.machine.Snap.At
			w.plan.Mods = func() tool.Mods { return tool.Mods{Shift: true} }
			w.plan.MouseMoved(e)
			return w.machine.Snap.At != held && geometry.Distance(w.machine.Snap.At, w.machine.View.Plan(w.machine.Pointer)) < geometry.Inch
		},
		"Tab: where the legs": func(_ *testing.T, w *Window) bool {
			w.typed("l0,0<Return><Right>20<Return><Up>10<Return><Left>19<Return><Down>10<Return>")
			before := w.machine.Status().Help.Do
			w.typed("<Tab>")
			return w.machine.Status().Help.Do != before || w.machine.Notice+w.machine.Info != ""
		},
		"Tab, Shift+Tab: next or previous thing": func(_ *testing.T, w *Window) bool {
			w.draw(t)
			w.typed("<Escape><Tab>")
			first := w.machine.Selected
			w.typed("<Tab>")
			second := w.machine.Selected
			w.mod(tool.Mods{Shift: true}, "Tab")
			return first != second && w.machine.Selected == first
		},
		"a length, Enter: make the selected": func(_ *testing.T, w *Window) bool {
			w.draw(t)
			selected(w, tool.Edge)
			w.typed("32<Return>")
			was := outline(w)[0].At
			if outline(w).Length(0) != 32*ft {
				return false
			}
			selected(w, tool.Edge)
			w.typed("30<Tab><Return>")
			return outline(w).Length(0) == 30*ft && outline(w)[0].At != was
		},
		"a length, Enter: on a door": func(_ *testing.T, w *Window) bool {
			w.draw(t)
			w.typed("d<Right>4<Return>")
			w.typed("6<Return>")
			return len(outline(w)[0].Doors) == 1 && outline(w)[0].Doors[0].From == 6*ft
		},
		"click a number": func(_ *testing.T, w *Window) bool {
			w.draw(t)
			w.typed("<Escape>")
			d := w.machine.Dims()[0]
			e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
			e.Position = fyne.NewPos(float32(d.At.X), float32(d.At.Y))
			w.plan.MouseMoved(e)
			w.plan.MouseDown(e)
			w.plan.MouseUp(e)
			w.typed("33<Return>")
			return outline(w).Length(d.Edge) == 33*ft
		},
		"double-click an edge": func(_ *testing.T, w *Window) bool {
			w.draw(t)
			w.typed("<Escape>")
			w.click(pt(15*ft, 0))
			w.plan.DoubleTapped(&fyne.PointEvent{Position: w.at(pt(15*ft, 0))})
			if len(outline(w)) != 5 {
				return false
			}
			selected(w, tool.Edge)
			w.typed("<Insert>")
			return len(outline(w)) == 6
		},
		"Space: on a bolt mark": func(_ *testing.T, w *Window) bool {
			w.draw(t)
			q, err := w.doc.Plan().SetBolts(0, 0, []plan.BoltMark{{Along: 5 * ft}})
			if err != nil {
				return false
			}
			w.doc.CommitPlan("mark", q)
			selected(w, tool.Bolt)
			before := outline(w)[0].Bolts[0]
			w.typed("<Space>")
			return outline(w)[0].Bolts[0] != before
		},
		"Delete": func(_ *testing.T, w *Window) bool {
			w.draw(t)
			w.typed("d<Right>4<Return><Delete>")
			return len(outline(w)[0].Doors) == 0
		},
		"arrow keys: nudge": func(_ *testing.T, w *Window) bool {
			w.draw(t)
			selected(w, tool.Corner)
			at := outline(w)[0].At
			w.typed("<Left>")
			ok := outline(w)[0].At == at.Add(pt(-geometry.Inch, 0))
			w.mod(tool.Mods{Shift: true}, "Left")
			ok = ok && outline(w)[0].At == at.Add(pt(-geometry.Inch-geometry.Sixteenth, 0))
			w.mod(tool.Mods{Ctrl: true}, "Left")
			return ok && outline(w)[0].At == at.Add(pt(-geometry.Inch-geometry.Sixteenth-ft, 0))
		},
		"Page Up  Page Down": func(_ *testing.T, w *Window) bool {
			w.draw(t)
			w.typed("sr10 x 10<Return>")
			second := w.doc.Slab()
			w.typed("<Prior>")
			first := w.doc.Slab()
			w.typed("<Next>")
			return first != second && w.doc.Slab() == second
		},
		"Ctrl+drag": func(_ *testing.T, w *Window) bool {
			w.draw(t)
			w.typed("<Escape>")
			at := outline(w)[0].At
			w.plan.Mods = func() tool.Mods { return tool.Mods{Ctrl: true} }
			w.drag(pt(15*ft, 12*ft), pt(17*ft, 12*ft), true)
			return outline(w)[0].At == at.Add(pt(2*ft, 0))
		},
		"Esc": func(_ *testing.T, w *Window) bool {
			w.draw(t)
			w.typed("l0,0<Return>12<Escape>")
			typed := w.machine.Text == "" && chain(w) == 1
			w.typed("<Escape>")
			back := chain(w) == 0
			w.typed("<Escape>")
			return typed && back && w.machine.State().Name() == "Select"
		},
		"drag on empty ground": func(_ *testing.T, w *Window) bool {
			w.typed("v")
			before := w.machine.View
			w.drag(pt(20*ft, 15*ft), pt(22*ft, 15*ft), true)
			dragged := w.machine.View
			w.typed("<Right>")
			return before != dragged && w.machine.View != dragged
		},
		"J": func(_ *testing.T, w *Window) bool {
			w.draw(t)
			w.typed("j")
			w.click(pt(15*ft, 24*ft))
			return outline(w)[2].Joint
		},
		"C": func(_ *testing.T, w *Window) bool {
			w.typed("r24 x 30<Return>c")
			w.click(pt(0, 12*ft))
			w.click(pt(24*ft, 12*ft))
			c := w.doc.Plan().Construction
			return len(c) == 1 && c[0].From == pt(0, 12*ft) && c[0].To == pt(24*ft, 12*ft)
		},
		"Y": func(_ *testing.T, w *Window) bool {
			w.typed("r24 x 30<Return>y12', 0<Return>12', 30'<Return>")
			l := w.doc.Plan().Walls
			return len(l) == 1 && l[0].From == pt(12*ft, 0) && l[0].To == pt(12*ft, 30*ft) && l[0].Plate == "2x4"
		},
		"I": func(_ *testing.T, w *Window) bool {
			w.typed("r24 x 30<Return>i6', 5'<Return>")
			e := w.doc.Plan().Embeds
			return len(e) == 1 && e[0].Center == pt(6*ft, 5*ft)
		},
		"Q": func(_ *testing.T, w *Window) bool {
			w.typed("r24 x 30<Return>q6', 5'<Return>6' right<Return><Return>")
			l := w.doc.Plan().Lines
			return len(l) == 1 && len(l[0].Path) == 2 && l[0].Path[1] == pt(12*ft, 5*ft)
		},
		"/": func(_ *testing.T, w *Window) bool {
			w.typed("r24 x 30<Return>/0, 4'<Return>24', 4'<Return>")
			w.click(pt(12*ft, ft))
			b := w.doc.Plan().Top.Breaks
			return len(b) == 1 && b[0].From == pt(24*ft, 4*ft) && b[0].To == pt(0, 4*ft)
		},
		"O": func(_ *testing.T, w *Window) bool {
			was := w.machine.Square
			w.typed("o")
			return w.machine.Square != was
		},
		"G": func(_ *testing.T, w *Window) bool { was := w.machine.Grid; w.typed("g"); return w.machine.Grid != was },
		"+": func(_ *testing.T, w *Window) bool {
			was := w.machine.View.Scale
			w.typed("+")
			return w.machine.View.Scale > was
		},
		"-": func(_ *testing.T, w *Window) bool {
			was := w.machine.View.Scale
			w.typed("v-")
			return w.machine.View.Scale < was
		},
		"Z": func(_ *testing.T, w *Window) bool {
			was := w.machine.View
			w.typed("+z")
			return w.machine.View == was
		},
		"S": func(_ *testing.T, w *Window) bool {
			w.draw(t)
			w.typed("s")
			return len(w.doc.Job().Slabs) == 2
		},
		"U": func(_ *testing.T, w *Window) bool { was := w.doc.Units(); w.typed("u"); return w.doc.Units() != was },
		"?": func(_ *testing.T, w *Window) bool { w.typed("?"); return w.win.Canvas().Overlays().Top() != nil },
		"F1": func(_ *testing.T, w *Window) bool {
			w.pressed(fyne.KeyF1)
			up := w.win.Canvas().Overlays().Top() != nil
			w.pressed(fyne.KeyEscape)
			return up && w.win.Canvas().Overlays().Top() == nil && w.win.Canvas().Focused() == w.plan
		},
		"F6": func(_ *testing.T, w *Window) bool {
			w.draw(t)
			seen := map[fyne.Focusable]bool{}
			for range 3 { // panel, bar and tools; a high window has the takeoff besides
				w.pressed(fyne.KeyF6)
				f := w.win.Canvas().Focused()
				if f == nil || f == w.plan || seen[f] {
					return false
				}
				seen[f] = true
			}
			w.pressed(fyne.KeyF6)
			return w.win.Canvas().Focused() == w.plan
		},
		"Tab, Shift+Tab: next or previous field": func(_ *testing.T, w *Window) bool {
			w.sideTab(3)
			first := w.win.Canvas().Focused()
			w.win.Canvas().FocusNext()
			second := w.win.Canvas().Focused()
			w.win.Canvas().FocusPrevious()
			return first != second && w.win.Canvas().Focused() == first
		},
		"Space or Enter": func(_ *testing.T, w *Window) bool {
			taps := 0
			b := form.Do("Test", func() { taps++ })
			c := form.NewCheck("Test", nil)
			b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
			b.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
			c.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
			on := c.Checked
			c.TypedRune(' ')
			return taps == 2 && on && !c.Checked
		},
		"left, right": func(_ *testing.T, w *Window) bool {
			s := form.NewSelect([]string{"a", "b"}, nil)
			s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
			return s.Selected == "b"
		},
		"F10": func(_ *testing.T, w *Window) bool {
			w.pressed(fyne.KeyF10)
			_, opens := w.win.Canvas().Focused().(*widget.PopUpMenu)
			return opens
		},
		"Ctrl+Shift+Z": func(_ *testing.T, w *Window) bool {
			w.draw(t)
			w.undo()
			w.win.Canvas().(fyne.Shortcutable).TypedShortcut(ctrl(fyne.KeyZ, fyne.KeyModifierShift))
			return len(outline(w)) == 4
		},
	}
	w := open(t, Options{Job: shelf.Blank(geometry.FeetInches)})
	sheet := w.keySheet()
	used := map[string]bool{}
	for _, row := range sheet {
		if row[1] == "" {
			continue // a heading
		}
		if ok, found := w.tableKey(row); found {
			if !ok {
				t.Errorf("%s does not start %s", row[0], row[1])
			}
			continue
		}
		key := row[0]
		if _, ok := checks[key]; !ok {
			for k := range checks {
				if at, about, cut := strings.Cut(k, ": "); cut && at == row[0] && strings.HasPrefix(row[1], about) {
					key = k
				}
			}
		}
		check := checks[key]
		if check == nil {
			t.Errorf("nothing shows that %q does what the sheet says: %s", row[0], row[1])
			continue
		}
		used[key] = true
		t.Run(row[0], func(t *testing.T) {
			w := open(t, Options{Job: shelf.Blank(geometry.FeetInches)})
			w.Show()
			if !check(t, w) {
				t.Errorf("%s does not: %s", row[0], row[1])
			}
		})
	}
	for key := range checks {
		if !used[key] {
			t.Errorf("the sheet does not show %q", key)
		}
	}
}

// tableKey checks a row of the sheet that stands for a tool or a command of the
// menu; found tells whether it does.
func (w *Window) tableKey(row [2]string) (ok, found bool) {
	for _, t := range tools() {
		if row[1] == t.name && len(row[0]) == 1 {
			w.letter(rune(row[0][0]))
			return w.machine.State().Name() == t.start().Name(), true
		}
	}
	for _, m := range w.commands.Items {
		for _, i := range m.Items {
			if i.Shortcut != nil && keysOf(i.Shortcut) == row[0] && strings.TrimSuffix(i.Label, "…") == row[1] {
				return i.Action != nil, true
			}
		}
	}
	return false, false
}

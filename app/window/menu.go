package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/look"
)

func ctrl(k fyne.KeyName, more fyne.KeyModifier) fyne.Shortcut {
	return &desktop.CustomShortcut{KeyName: k, Modifier: fyne.KeyModifierShortcutDefault | more}
}

// menu is the main menu: every command by name, with its keys. say says the names.
func (w *Window) menu(say func(string) string) *fyne.MainMenu {
	item := func(text string, s fyne.Shortcut, f func()) *fyne.MenuItem {
		m := fyne.NewMenuItem(say(text), f)
		m.Shortcut = s
		return m
	}
	alt := func(k fyne.KeyName) fyne.Shortcut {
		return &desktop.CustomShortcut{KeyName: k, Modifier: fyne.KeyModifierAlt}
	}
	var draw []*fyne.MenuItem
	for _, t := range tools() {
		draw = append(draw, item(t.name+"   ("+string(t.key-'a'+'A')+")", nil, func() { w.use(t.start()) }))
	}
	slab := []*fyne.MenuItem{
		item("New slab   (S)", nil, w.newSlab),
		item("Copy the slab", nil, func() { w.pages.home(); w.machine.CopySlab(); w.side.tab(editTab) }),
		item("Next slab   (Page Down)", nil, func() { w.machine.Use(&tool.Select{}); w.machine.Key(tool.PageDown, tool.Mods{}) }),
		fyne.NewMenuItemSeparator(),
		item("Outline by legs…", ctrl(fyne.KeyL, 0), func() { w.side.turn(tool.Legs) }),
		item("Outline by sizes…", ctrl(fyne.KeyB, 0), func() { w.side.turn(tool.Shapes) }),
		item("Hole, point by point", nil, func() { w.use(&tool.Chain{What: tool.Hole}) }),
		item("Joint with the old slab   (J)", nil, func() { w.letter('j') }),
		item("Edge sections…", ctrl(fyne.KeyE, 0), func() { w.side.turn(tool.Sections) }),
		item("Draw over a sketch…", ctrl(fyne.KeyI, 0), func() { w.side.turn(tool.Sketching) }),
		item("North, benchmarks, notes…", nil, func() { w.side.turn(tool.Surveying) }),
	}
	samples := item("Sample jobs", nil, nil)
	samples.ChildMenu = w.samples()
	return fyne.NewMainMenu(
		fyne.NewMenu(say("File"),
			item("New job", ctrl(fyne.KeyN, 0), w.newJob),
			item("Jobs in the book…", ctrl(fyne.KeyO, 0), w.showJobs),
			item("Open a job file…", ctrl(fyne.KeyO, fyne.KeyModifierShift), w.openFile),
			item("Save as a job file…", ctrl(fyne.KeyS, 0), w.saveFile),
			samples,
			fyne.NewMenuItemSeparator(),
			item("Print sheets…", ctrl(fyne.KeyP, 0), w.showPrint),
		),
		fyne.NewMenu(say("Edit"),
			item("Undo", &fyne.ShortcutUndo{}, w.undo),
			item("Redo", &fyne.ShortcutRedo{}, w.redo),
			fyne.NewMenuItemSeparator(),
			item("Delete what is selected", nil, func() { w.machine.Key(tool.Delete, tool.Mods{}) }),
			item("Switch units   (U)", nil, w.switchUnits),
		),
		fyne.NewMenu(say("Draw"), draw...),
		fyne.NewMenu(say("Slab"), slab...),
		fyne.NewMenu(say("Pages"), append(w.pages.items(say),
			fyne.NewMenuItemSeparator(),
			item("Beside the plan: Edit", alt(fyne.Key1), func() { w.sideTab(editTab) }),
			item("Beside the plan: Checks", alt(fyne.Key2), func() { w.sideTab(checksTab) }),
			item("Beside the plan: Spec", alt(fyne.Key3), func() { w.sideTab(specTab) }),
			item("Beside the plan: Job", alt(fyne.Key4), func() { w.sideTab(jobTab) }),
			item("Beside the plan: Takeoff", alt(fyne.Key5), func() { w.sideTab(takeoffTab) }),
			fyne.NewMenuItemSeparator(),
			item("Next part of the window", ctrl(fyne.KeyF6, 0), func() { w.nextPart(1) }),
			item("Part before", ctrl(fyne.KeyF6, fyne.KeyModifierShift), func() { w.nextPart(-1) }),
		)...),
		fyne.NewMenu(say("View"),
			item("Show all", ctrl(fyne.Key0, 0), w.machine.Fit),
			item("Larger", ctrl(fyne.KeyEqual, 0), func() { w.machine.Zoom(1.25) }),
			item("Smaller", ctrl(fyne.KeyMinus, 0), func() { w.machine.Zoom(0.8) }),
			item("Show…", ctrl(fyne.KeyK, 0), w.showLayers),
			fyne.NewMenuItemSeparator(),
			item("Light or dark", ctrl(fyne.KeyD, 0), w.otherAppearance),
			item("As the desktop", nil, func() { w.setAppearance(look.System) }),
		),
		fyne.NewMenu(say("Help"),
			item("This page   (F1)", nil, w.showHelp),
			item("The guide", nil, func() { w.showGuide(guideOf(planPage)) }),
			item("Keys   (?)", nil, w.showKeys),
			item("Cautions", nil, w.showCautions),
			item("What changed", nil, w.showChanges),
			item("About Haunchbook", nil, w.showAbout),
		),
	)
}

// newSlab begins another slab.
func (w *Window) newSlab() {
	w.pages.home()
	w.side.tab(editTab)
	w.machine.NewSlab()
}

// showPrint opens the page that prints.
func (w *Window) showPrint() {
	w.machine.Use(&tool.Select{})
	w.side.ask(w.side.print)
}

package look

import "fyne.io/fyne/v2"

// sign gives an icon of 24 by 24 from its shapes.
func sign(name, shapes string) fyne.Resource {
	return fyne.NewStaticResource(name+".svg", []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="24" height="24" viewBox="0 0 24 24">`+shapes+`</svg>`))
}

// Signs that stand before texts.
var (
	Caution = sign("caution", `<path fill="#000000" d="M12 3 L22.5 21 H1.5 Z M11 9.5 V15 H13 V9.5 Z M11 16.8 V19 H13 V16.8 Z" fill-rule="evenodd"/>`)
	Know    = sign("know", `<path fill="#000000" d="M4 3 H20 V21 H4 Z M6 5 V19 H18 V5 Z M8 8 H16 V10 H8 Z M8 12 H16 V14 H8 Z" fill-rule="evenodd"/>`)
	Call    = sign("call", `<path fill="#000000" d="M5 3 H9 L11 9 L8.5 11 Q10.5 14.5 13.5 16 L15.5 13.5 L21 15.5 V19.5 Q20.5 21.5 18 21.5 Q4 20 3 6 Q3 3.5 5 3 Z"/>`)
)

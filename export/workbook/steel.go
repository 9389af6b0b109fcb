package workbook

func (b *builder) steel() error   { return nil }
func (b *builder) bolts() error   { return nil }
func (b *builder) forms() error   { return nil }
func (b *builder) options() error { return nil }

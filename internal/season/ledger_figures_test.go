package season

import (
	"fmt"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/state"
)

// figuresOf names the figures of a report as the ledger does.
func figuresOf(p Report) map[string]float64 {
	f := map[string]float64{
		"entries": float64(p.Entries), "paid": float64(p.Paid), "batches": float64(len(p.Batches)),
		"band in": float64(p.Judged.In), "band weak": float64(p.Judged.Weak), "band strong": float64(p.Judged.Strong),
		"pile opening": float64(p.Salt.Opening), "pile closing": float64(p.Salt.Closing), "pile delivered": float64(p.Salt.Delivered),
		"pile gone": float64(p.Salt.Gone), "pile in brine": float64(p.Salt.InBrine), "pile moisture": float64(p.Salt.Moisture),
		"pile sludge": float64(p.Salt.Insolubles), "pile unexplained": float64(p.Salt.Unexplained),
	}
	masses(f, "opening ", p.Opening)
	masses(f, "closing ", p.Closing)
	masses(f, "across ", p.Across)
	for _, l := range p.Months {
		path := l.Month.Format("2006-01") + " " + l.Liquid + " "
		line(f, path, l)
		f[path+"used"], f[path+"cost"] = float64(l.Used), cost(l.Cost)
	}
	line(f, "total ", p.Total)
	f["at prices"] = cost(p.AtYardPrices)
	for i, b := range p.Batches {
		f[fmt.Sprint("batch ", i)] = float64(b.Strength)
	}
	for _, o := range p.Operators {
		path := "operator " + o.Name + " "
		f[path+"batches"], f[path+"in"], f[path+"loads"], f[path+"entries"] = float64(o.Batches), float64(o.InBand), float64(o.Loads), float64(o.Entries)
	}
	for _, r := range p.Routes {
		path := "route " + r.Name + " "
		f[path+"loads"], f[path+"volume"], f[path+"chloride"], f[path+"rate"] = float64(r.Loads), float64(r.Volume), float64(r.Chlorides), float64(r.Rate)
	}
	for _, c := range p.Cleanings {
		path := "cleaning " + c.Tank + " "
		f[path+"learned"], f[path+"interval"], f[path+"usual"] = float64(c.Learned), float64(c.Interval), float64(c.Sludge)
		f[path+"since"], f[path+"sludge"], f[path+"left"] = float64(c.Since), float64(c.Insolubles), float64(c.Left)
		if !c.Date.IsZero() {
			f[path+"due"] = float64(c.Date.Unix())
		}
	}
	return f
}

func line(f map[string]float64, path string, l Line) {
	f[path+"made"], f[path+"laid"], f[path+"delivered"] = float64(l.Made), float64(l.Laid), float64(l.Delivered)
	f[path+"salt"], f[path+"water"] = float64(l.Salt), float64(l.Water)
	f[path+"nacl"], f[path+"chloride"] = float64(l.NaCl), float64(l.Chlorides)
}

// notKnown stands for a cost without a price.
const notKnown = -1

func cost(m *quantity.Money) float64 {
	if m == nil {
		return notKnown
	}
	return float64(*m)
}

// masses names what liquids consist of; the solutes of the product are 48 % of it.
func masses(f map[string]float64, path string, m balance.Masses) {
	f[path+"product"] = m.Other / testProduct.Solute
	f[path+"water"] = m.Water - (1-testProduct.Solute)*f[path+"product"]
	f[path+"nacl"], f[path+"kcl"], f[path+"cacl2"], f[path+"mgcl2"] = m.NaCl, m.KCl, m.CaCl2, m.MgCl2
}

// standingIn names what stands in the yard as the ledger does.
func standingIn(s *state.State) map[string]float64 {
	f := map[string]float64{"pile": float64(s.Pile)}
	for _, tank := range s.Tanks() {
		masses(f, tank.Name+" ", tank.Masses())
		f[tank.Name+" volume"] = float64(tank.Volume())
		f[tank.Name+" is "+tank.Liquid.Name] = 1
		if tank.Reading != nil {
			f[tank.Name+" read"] = float64(tank.Reading.True)
			if tank.Reading.Comparable {
				f[tank.Name+" drift"] = float64(tank.Reading.True - tank.Reading.Expected)
			}
		}
	}
	if s.PileCount != nil {
		f["pile expected"] = float64(s.PileCount.Expected)
	}
	return f
}

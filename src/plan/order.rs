//! The order list: every quantity of the takeoff as one buys it.

use crate::body::takeoff::{Blanks, CoatSide, CoatTakeoff, Takeoff, with_spares};
use crate::money::Money;
use crate::quantity::ShopUnits;
use crate::shop::quote::is_primer;

use super::cut_list::CutList;
use super::drilling;
use super::file::File;
use super::resolve::Resolved;
use super::results::OrderLine;
use super::rivet_lots::{RivetLot, by_length};

pub(super) fn order(
    r: &Resolved,
    (takeoff, cut): (&Takeoff, &CutList),
    (lots, bits): (&[RivetLot], Option<(u64, u64)>),
    file: &File,
) -> Vec<OrderLine> {
    let units = file.units;
    let mut lines = sheets(r, takeoff, cut, units);
    lines.extend(bars(r, cut, units));
    let mut line = |item: String, quantity: f64, unit, note: String| {
        if quantity > 0.0 {
            lines.push(OrderLine { item, supplier: None, quantity, unit, note });
        }
    };
    let hole = units.length(r.rivet.hole_mm);
    for (length, own) in by_length(lots) {
        let holes = own.iter().map(|lot| lot.stacked.holes).sum();
        let grips = || own.iter().filter_map(|lot| lot.grip_mm);
        let (low, high) = (grips().fold(f64::INFINITY, f64::min), grips().fold(0.0, f64::max));
        let grip = if low <= high { format!("grip {low:.1} to {high:.1} mm, ") } else { String::new() };
        line(
            format!("rivets, {}{}", r.rivet.label, length.map_or_else(String::new, |length| format!(", {length}"))),
            with_spares(holes, r.allowances.spares) as f64,
            "pieces",
            format!("{grip}{holes} holes of {hole}, spares included"),
        );
    }
    let old = takeoff.old_holes;
    let note = format!("{} holes besides, spares included; their length by what lies there", old.riveted);
    let spare = takeoff.old_line_rivets_ordered as f64;
    line(format!("rivets, {}, for lines over old holes", r.rivet.label), spare, "pieces", note);
    line("plugs".to_owned(), old.plugged as f64, "pieces", "old holes in sheet that stays (hole_line)".to_owned());
    if let Some((least, most)) = bits {
        let size = units.length(drilling::PILOT_MM);
        let note = format!("{size}; {least} where all goes well; common practice, no source");
        line("pilot bits".to_owned(), most as f64, "pieces", note);
    }
    let of = format!("{:.1} m of lap and edge", takeoff.sealed_length_m);
    match (takeoff.cartridges, r.allowances.cartridge_l) {
        (Some(count), Some(content_l)) => {
            let note = format!("of {:.0} mL; {:.2} L for {of}", 1000.0 * content_l, takeoff.sealant_l);
            line("sealant".to_owned(), f64::from(count), "cartridges", note);
        }
        _ => line("sealant".to_owned(), takeoff.sealant_l, "L", of),
    }
    if let Some(own) = &r.paint.pretreatment {
        line(own.name.clone(), takeoff.pretreated_area_m2, "m2", "pretreatment of the new skin, by face".to_owned());
    }
    let touch_up =
        format!("touch up {:.0} m of cut edge and {} holes", takeoff.cut_edges_m, takeoff.rivets + old.drilled);
    let mut touch_up = Some(touch_up);
    for (name, litres) in takeoff.paints_l() {
        let coats = takeoff.coats.iter().filter(|coat| coat.name == name);
        let mut notes: Vec<String> = coats.map(|coat| painted(takeoff, coat)).collect();
        notes.extend(touch_up.take_if(|_| is_primer(name)));
        line(name.to_owned(), litres, "L", notes.join("; "));
    }
    if let Some((thickness_mm, width_mm)) = r.trim.bond_mm {
        let size = format!("{} wide, {} thick", units.length(width_mm), units.length(thickness_mm));
        line("tape or adhesive on posts".to_owned(), takeoff.on_posts_m, "m", size);
    }
    if r.trim.drip_rail {
        line("drip rail".to_owned(), takeoff.drip_rail_m, "m", "along both sides, over the upper edge".to_owned());
    }
    if r.trim.channel {
        line("channel".to_owned(), takeoff.channel_m, "m", "over windows and doors that stay".to_owned());
    }
    lines
}

/// Whole sheets that blanks are cut from, then blanks cut to size.
fn sheets(r: &Resolved, takeoff: &Takeoff, cut: &CutList, units: ShopUnits) -> Vec<OrderLine> {
    let mut lines = Vec::new();
    let label = &r.sheet.label;
    let to_size = |b: &Blanks, ids: &[String]| OrderLine {
        item: format!("sheet {label}, cut to size"),
        supplier: r.cutting.cut_to_size_by.clone(),
        quantity: ids.len() as f64,
        unit: "pieces",
        note: format!(
            "{} along, {} up: {}; {}",
            units.length(b.length_mm),
            units.length(b.height_mm),
            ids.join(", "),
            b.words()
        ),
    };
    let Some(own) = &cut.sheets else {
        return takeoff.blanks.iter().map(|b| to_size(b, &b.ids)).collect();
    };
    for bought in own.purchases() {
        let price = bought.price.map(|amount| Money { amount, currency: own.currency });
        let price = price.map_or_else(String::new, |price| format!("{price} each"));
        let item = format!("{} of {label}", bought.item);
        let (supplier, quantity) = (bought.supplier, f64::from(bought.count));
        lines.push(OrderLine { item, supplier, quantity, unit: bought.unit, note: price });
    }
    let to_order = own.bought_names();
    for b in &takeoff.blanks {
        let ids: Vec<String> = b.ids.iter().filter(|id| to_order.contains(id.as_str())).cloned().collect();
        if !ids.is_empty() {
            lines.push(to_size(b, &ids));
        }
    }
    lines
}

/// Bars of the inserts' section and of tube.
fn bars(r: &Resolved, cut: &CutList, units: ShopUnits) -> Vec<OrderLine> {
    let mut lines = Vec::new();
    let all = [(&cut.inserts, &r.insert.label, "for inserts"), (&cut.backing, &r.backing.label, "behind sheet edges")];
    for (own, label, place) in all {
        let Some(own) = own else { continue };
        let pieces: u32 = own.job.pieces.iter().map(|piece| piece.count).sum();
        let total_m: f64 = own.job.pieces.iter().map(|p| f64::from(p.count) * p.length_tenths as f64 / 10_000.0).sum();
        let longest = own.job.pieces.first().map_or(0.0, |piece| piece.length_tenths as f64 / 10.0);
        let of = format!("{pieces} pieces, {total_m:.1} m, the longest {}", units.length(longest));
        for bought in own.purchases(&format!("{label} {place}, bar")) {
            let price = bought.price.zip(own.currency).map(|(amount, currency)| Money { amount, currency });
            let note = price.map_or_else(|| of.clone(), |price| format!("{price} each; {of}"));
            let (item, supplier, quantity) = (bought.item, bought.supplier, f64::from(bought.count));
            lines.push(OrderLine { item, supplier, quantity, unit: bought.unit, note });
        }
    }
    lines
}

/// Where a coat goes.
fn painted(takeoff: &Takeoff, coat: &CoatTakeoff) -> String {
    let area_m2 = coat.area_m2;
    match coat.side {
        CoatSide::Inside => format!(
            "{area_m2:.1} m2: inside of the new skin, {:.1} m2 of it bare steel of inserts and tube",
            takeoff.bare_area_m2
        ),
        CoatSide::Frame => format!("{area_m2:.1} m2: bare steel of inserts and tube"),
        CoatSide::Outside => format!("{area_m2:.1} m2, outside"),
    }
}

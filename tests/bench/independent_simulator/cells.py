"""The cells of the accuracy study: each changes a few settings of the reference cell."""

import dataclasses

from sheet import NO_HOLES, PRICK, PUNCH

# name: (changes of the settings, further options of measure)
CELLS = {
    "reference: 4 punched holes, 150 dpi": ({}, []),
    "reference, holes only": ({}, ["--datum", "holes"]),
    "no print noise, holes only": (
        dict(feed__swath_um=0, feed__roller_um=0, ink__rough_um=0), ["--datum", "holes"]),
    "200 dpi": (dict(scanner__dpi=200), []),
    "300 dpi": (dict(scanner__dpi=300), []),
    "blur 90 um": (dict(scanner__blur_um=90), []),
    "motion blur 60 um along the carriage": (dict(scanner__motion_blur_um=60), []),
    "noise 5 of 255": (dict(scanner__noise=5, scanner__texture=0.02), []),
    "JPEG 80": (dict(scanner__jpeg=80), []),
    "JPEG 40": (dict(scanner__jpeg=40), []),
    "auto levels, sharpened": (dict(scanner__clip=0.06, scanner__sharpen=1.0), []),
    "dot gain 60 um": (dict(ink__gain_um=60), []),
    "ink runs 20 um along the feed": (dict(ink__bleed_y_um=20), []),
    "ink runs 40 um along the feed": (dict(ink__bleed_y_um=40), []),
    "ink runs 40 um along the swath": (dict(ink__bleed_x_um=40), []),
    "swath 0, roller 0": (dict(feed__swath_um=0, feed__roller_um=0), []),
    "swath 15 um, roller 15 um": (dict(feed__swath_um=15, feed__roller_um=15), []),
    "carriage even": (dict(scanner__gear_um=0, scanner__walk_um=0, scanner__white_um=0), []),
    "gear 60 um at 4 mm": (dict(scanner__gear_um=60, scanner__gear_mm=4), []),
    "gear 40 um at 15 mm": (dict(scanner__gear_um=40, scanner__gear_mm=15), []),
    "carriage walks 50 um": (dict(scanner__walk_um=50), []),
    "each line off by 20 um": (dict(scanner__white_um=20), []),
    "shear 5 mrad, scale 1 %": (
        dict(scanner__shear_mrad=5, scanner__scale_x_ppm=4000, scanner__scale_y_ppm=-4000,
             scanner__sag_um=200, scanner__lens_ppm=2000), []),
    "paper grows 1000 ppm between passes": (dict(passes__growth_ppm=1000), []),
    "rough punch: burr, lean 15 um": (
        dict(hands__burr=0.006, hands__rough=0.008, hands__lean_um=15), []),
    "3 punched holes": (dict(hands__count=3), []),
    "2 punched holes": (dict(hands__count=2), []),
    "2 punched holes, holes only": (dict(hands__count=2), ["--datum", "holes"]),
    "8 pricks": (dict(hands=PRICK), []),
    "8 pricks, holes only": (dict(hands=PRICK), ["--datum", "holes"]),
    "8 pricks, pin leans 60 um": (
        dict(hands=dataclasses.replace(PRICK, steady_lean_um=60, lean_um=30)), []),
    "edges": (dict(hands=NO_HOLES), []),
    "edges rough: 15 um, bevel 8 um": (
        dict(hands=NO_HOLES, paper__rough_um=15, paper__bevel_um=8), []),
    "edges, 300 dpi": (dict(hands=NO_HOLES, scanner__dpi=300), []),
    "edges, JPEG 40": (dict(hands=NO_HOLES, scanner__jpeg=40), []),
    "edges, auto levels, sharpened": (
        dict(hands=NO_HOLES, scanner__clip=0.06, scanner__sharpen=1.0), []),
    "edges, noise 5 of 255": (
        dict(hands=NO_HOLES, scanner__noise=5, scanner__texture=0.02), []),
    "edges, dust: ten times as much": (dict(hands=NO_HOLES, scanner__dust_per_dm2=40), []),
    "3 scans a side": (dict(pictures__repeats=3), []),
    "3 scans a side, the second turned by 180 degrees": (
        dict(pictures__repeats=3, pictures__turned=True), []),
    "edges, 3 scans a side, the second turned": (
        dict(hands=NO_HOLES, pictures__repeats=3, pictures__turned=True), []),
    "edges, bed as long as the sheet, two shifted scans a side": (
        dict(hands=NO_HOLES, pictures__both_ends=True, scanner__short_bed_mm=6), []),
    "grey card behind": (dict(scanner__background=0.15, paper__thickness_shadow=0.4), []),
}

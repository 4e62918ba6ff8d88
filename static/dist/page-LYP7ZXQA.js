import"./part-2LIN4YOW.js";import"./part-CC4RBNWC.js";import"./part-N6NOW2CK.js";import"./part-QQSS5HBG.js";import"./part-AJJ3ULMT.js";

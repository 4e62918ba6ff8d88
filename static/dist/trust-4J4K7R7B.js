import"./part-RMVX6PFM.js";import"./part-TUTYKLWB.js";import"./part-2FK4ZH6B.js";import"./part-X4ITCMSV.js";import"./part-AJJ3ULMT.js";

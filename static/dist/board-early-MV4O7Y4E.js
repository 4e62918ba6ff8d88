import{a as t,b as a}from"./part-PVPTINGO.js";import"./part-QI4G4TNM.js";import"./part-AJJ3ULMT.js";var{board:o,team:r}=document.body.dataset;t(String(o)).catch(()=>{});a(String(r)).catch(()=>{});

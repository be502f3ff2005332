"""Stage 7: model, analysis and drawing become HTML fragments by the templates in site_templates/pages."""

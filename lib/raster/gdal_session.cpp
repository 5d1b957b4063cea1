#include "raster/gdal_session.h"

#include <cpl_conv.h>
#include <cpl_error.h>

#include <mutex>

namespace soilhold::raster {

namespace {

void CPL_STDCALL catch_message(CPLErr kind, CPLErrorNum, const char* text) {
    auto* listening = static_cast<Listening*>(CPLGetErrorHandlerUserData());
    if (!listening || kind == CE_None || kind == CE_Debug) return;
    listening->hear(kind >= CE_Failure, text_or_empty(text));
}

}  // namespace

void wake_gdal() {
    static std::once_flag once;
    std::call_once(once, [] {
        GDALAllRegister();
        // Rasters are read once from north to south: a twentieth of the machine's memory, GDAL's own choice, would only
        // take it from the grids.
        if (!CPLGetConfigOption("GDAL_CACHEMAX", nullptr)) GDALSetCacheMax64(std::int64_t{64} << 20);
    });
}

Listening::Listening() { CPLPushErrorHandlerEx(catch_message, this); }

Listening::~Listening() { CPLPopErrorHandler(); }

void Listening::hear(bool failure, const std::string& text) {
    // A broken file can fail once a block: the first few say enough.
    if (!failure)
        warning_ = text;
    else if (failures_.size() < 3 && (failures_.empty() || failures_.back() != text))
        failures_.push_back(text);
}

std::string Listening::words() const {
    std::string said;
    for (const std::string& failure : failures_) said += (said.empty() ? "" : "; ") + failure;
    if (said.empty()) said = warning_;
    if (said.empty()) return "it gave no reason";
    for (char& letter : said)
        if (letter == '\n' || letter == '\r' || letter == '\t') letter = ' ';
    while (!said.empty() && (said.back() == ' ' || said.back() == '.')) said.pop_back();
    if (said.size() > 300) {
        std::size_t end = 300;  // never in the middle of a letter
        while (end > 0 && (static_cast<unsigned char>(said[end]) & 0xC0U) == 0x80U) --end;
        said = said.substr(0, end) + "…";
    }
    return said;
}

void CloseDataset::operator()(GDALDatasetH dataset) const {
    const Listening quiet;
    GDALClose(dataset);
}

void FreeReference::operator()(OGRSpatialReferenceH reference) const { OSRRelease(reference); }

void FreeTransform::operator()(OGRCoordinateTransformationH transform) const {
    OCTDestroyCoordinateTransformation(transform);
}

void FreeGeometry::operator()(OGRGeometryH geometry) const { OGR_G_DestroyGeometry(geometry); }

Reference reference_of(const std::string& text) {
    if (text.empty()) return nullptr;
    const Listening quiet;
    Reference reference(OSRNewSpatialReference(nullptr));
    if (OSRSetFromUserInput(reference.get(), text.c_str()) != OGRERR_NONE) return nullptr;
    OSRSetAxisMappingStrategy(reference.get(), OAMS_TRADITIONAL_GIS_ORDER);
    return reference;
}

std::string wkt_of(OGRSpatialReferenceH reference) {
    if (!reference) return "";
    const Listening quiet;
    const char* const format[] = {"FORMAT=WKT2_2018", nullptr};
    char* text = nullptr;
    std::string wkt;
    if (OSRExportToWktEx(reference, &text, format) == OGRERR_NONE) wkt = text_or_empty(text);
    CPLFree(text);
    return wkt;
}

std::string text_or_empty(const char* text) { return text ? text : ""; }

}  // namespace soilhold::raster

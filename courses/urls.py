"""Addresses of this room."""

from django.urls import path

from courses.views import (
    certificates,
    check,
    courses,
    demo,
    enrolment,
    health,
    home,
    invitations,
    meetings,
    papers,
    people,
    readiness,
    register,
    roles,
    school,
    sites,
)

app_name = "courses"
urlpatterns = [
    path("", home.home, name="home"),
    path("healthz", health.healthz, name="healthz"),
    path("enter/<slug:role>/", demo.enter_as, name="enter_as"),
    path("kept-mail/", demo.demo_mail, name="demo_mail"),
    path("school/", school.school_edit, name="school_edit"),
    # people
    path("people/", people.people, name="people"),
    path("people/<uuid:uuid>/", people.person, name="person"),
    path("people/<uuid:uuid>/edit/", people.person_edit, name="person_edit"),
    path("people/<uuid:uuid>/roles/", roles.role_grant, name="role_grant"),
    path("roles/<int:pk>/end/", roles.role_end, name="role_end"),
    path("invitations/", invitations.invitations, name="invitations"),
    path("invitations/new/", invitations.invite_by_mail, name="invite"),
    path("invitations/<int:pk>/resend/", invitations.invitation_resend, name="invitation_resend"),
    path("invitations/<int:pk>/withdraw/", invitations.invitation_withdraw, name="invitation_withdraw"),
    path("invitation/<str:key>/", invitations.invitation, name="invitation"),
    # courses
    path("courses/", courses.courses, name="courses"),
    path("courses/new/", courses.course_new, name="course_new"),
    path("courses/<slug:key>/", courses.course, name="course"),
    path("courses/<slug:key>/edit/", courses.course_edit, name="course_edit"),
    path("courses/<slug:key>/enrol/", enrolment.enrol_somebody, name="enrol"),
    path("courses/<slug:key>/cohort/", papers.cohort, name="cohort"),
    path("courses/<slug:key>/papers/set/", papers.course_paper_new, name="course_paper_new"),
    path("courses/<slug:key>/papers/<str:paper_key>/", papers.course_paper, name="course_paper"),
    path("enrolments/<int:pk>/withdraw/", enrolment.withdraw_somebody, name="withdraw"),
    # meetings
    path("meetings/", meetings.meetings, name="meetings"),
    path("meetings/new/", meetings.meeting_new, name="meeting_new"),
    path("meetings/<str:key>/", meetings.meeting, name="meeting"),
    path("meetings/<str:key>/edit/", meetings.meeting_edit, name="meeting_edit"),
    path("meetings/<str:key>/cancel/", meetings.meeting_cancel, name="meeting_cancel"),
    path("meetings/<str:key>/restore/", meetings.meeting_restore, name="meeting_restore"),
    path("meetings/<str:key>/register/", register.register, name="register"),
    path("meetings/<str:key>/register/add/", register.register_add, name="register_add"),
    path("meetings/<str:key>/register/<int:pk>/", register.register_mark, name="register_mark"),
    # sites
    path("sites/", sites.sites, name="sites"),
    path("sites/new/", sites.site_new, name="site_new"),
    path("sites/<int:pk>/", sites.site, name="site"),
    path("sites/<int:pk>/edit/", sites.site_edit, name="site_edit"),
    # certificates and readiness
    path("certificates/", certificates.certificates, name="certificates"),
    path("certificates/mine/", certificates.certificates_mine, name="certificates_mine"),
    path("certificates/apply/<int:pk>/", certificates.apply, name="apply"),
    path("certificates/applications/<int:pk>/", certificates.application, name="application"),
    path(
        "certificates/applications/<int:pk>/decide/", certificates.application_decide, name="application_decide"
    ),
    path("certificates/<str:number>/", certificates.certificate, name="certificate"),
    path("certificates/<str:number>/paper.pdf", certificates.certificate_pdf, name="certificate_pdf"),
    path("certificates/<str:number>/event/", certificates.certificate_event, name="certificate_event"),
    path("certificates/<str:number>/name/", certificates.certificate_name, name="certificate_name"),
    path("check/<str:key>/", check.check, name="check"),
    path("readiness/", readiness.readiness, name="readiness"),
    path("readiness/proofs/new/", readiness.requirement_new, name="requirement_new"),
]
